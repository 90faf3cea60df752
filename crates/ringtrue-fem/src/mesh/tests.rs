//! Meshes: whole, unfolded, on the outline.

use super::*;
use crate::problem::{Section, Shape};

fn area(mesh: &Mesh) -> f64 {
    let table = crate::element::Table::new(mesh, crate::problem::Symmetry::PlaneStrain, 1.0);
    table.points.iter().flatten().map(|p| p.area).sum()
}

fn check(mesh: &Mesh) {
    for e in 0..mesh.elements.len() {
        assert!(crate::element::is_unfolded(mesh, e), "element {e}");
    }
    // Euler: a disc of quadrilaterals; sides counted once inside, twice over all.
    let sides = (4 * mesh.elements.len() + mesh.boundary.len()) / 2;
    let corners = mesh.shared_nodes() - sides;
    assert_eq!(corners + mesh.elements.len(), sides + 1);
    for k in 0..mesh.boundary.len() {
        assert_eq!(mesh.boundary[k][2], mesh.boundary[(k + 1) % mesh.boundary.len()][0]);
    }
}

#[test]
fn round_mesh_lies_on_the_circle_and_meets_the_touch_points() {
    let section = Section { shape: Shape::Round { diameter: 12.0 }, mean_radius: Some(100.0) };
    for size in [3.0, 1.0, 0.4] {
        let touch = [0.26, 3.49];
        let mesh = mesh_section(&section, size, &touch).unwrap();
        check(&mesh);
        for node in mesh.boundary.iter().flat_map(|e| &e[..2]) {
            let x = mesh.nodes[*node];
            assert!(((x[0] - 100.0).hypot(x[1]) - 6.0).abs() < 1e-12);
        }
        for angle in touch {
            let at = [100.0 + 6.0 * f64::cos(angle), 6.0 * f64::sin(angle)];
            let near = mesh
                .boundary
                .iter()
                .map(|e| (mesh.nodes[e[0]][0] - at[0]).hypot(mesh.nodes[e[0]][1] - at[1]))
                .fold(f64::MAX, f64::min);
            assert!(near < 1e-9, "{size} {angle}: {near}");
        }
        // Quadratic edges: the area converges with the fourth power.
        let exact = std::f64::consts::PI * 36.0;
        assert!((area(&mesh) / exact - 1.0).abs() < 2e-4 * size.powi(4).min(1.0) + 1e-9);
    }
}

#[test]
fn polygons_are_meshed_to_their_rounded_outline() {
    let corners = vec![[-5.7, -4.0], [4.3, -1.5], [5.7, 4.0], [-4.3, 1.5]];
    let full = outline::signed_area(&corners);
    for (radius, lost) in [(0.0, 0.0), (1.0, f64::NAN)] {
        let section = Section {
            shape: Shape::Polygon { corners: corners.clone(), corner_radius: radius },
            mean_radius: None,
        };
        let mesh = mesh_section(&section, 0.5, &[]).unwrap();
        check(&mesh);
        if radius == 0.0 {
            assert!((area(&mesh) - full + lost).abs() < 1e-9);
        } else {
            // Rounding a corner that turns by t takes r^2 (tan(t/2) - t/2) on each side.
            let n = corners.len();
            let cut: f64 = (0..n)
                .map(|i| {
                    let (a, b, c) = (corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]);
                    let (u, v) = ([b[0] - a[0], b[1] - a[1]], [c[0] - b[0], c[1] - b[1]]);
                    let turn = (u[0] * v[1] - u[1] * v[0]).atan2(u[0] * v[0] + u[1] * v[1]);
                    radius * radius * ((0.5 * turn).tan() - 0.5 * turn)
                })
                .sum();
            assert!((area(&mesh) - (full - cut)).abs() < 1e-4, "{} {}", area(&mesh), full - cut);
        }
    }
}

#[test]
fn an_l_shaped_outline_is_meshed_too() {
    let corners = vec![[0.0, 0.0], [6.0, 0.0], [6.0, 2.0], [2.0, 2.0], [2.0, 6.0], [0.0, 6.0]];
    let section =
        Section { shape: Shape::Polygon { corners, corner_radius: 0.3 }, mean_radius: Some(50.0) };
    let mesh = mesh_section(&section, 0.4, &[]).unwrap();
    check(&mesh);
}

#[test]
fn unusable_outlines_say_why() {
    let clockwise = Outline::rounded(&[[0.0, 0.0], [0.0, 1.0], [1.0, 0.0]], 0.0);
    assert!(clockwise.unwrap_err().contains("counter-clockwise"));
    let tight = Outline::rounded(&[[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]], 2.0);
    assert!(tight.unwrap_err().contains("too short"));
    let crossing = vec![[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [2.0, -1.0], [0.0, 4.0]];
    let section = Section {
        shape: Shape::Polygon { corners: crossing, corner_radius: 0.0 },
        mean_radius: None,
    };
    assert!(mesh_section(&section, 0.5, &[]).is_err());
}
