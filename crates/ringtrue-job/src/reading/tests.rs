use ringtrue_metrology::units::Quantity;
use ringtrue_seal::definition::TextError;
use ringtrue_seal::gap_stack::Size;

use super::*;

fn at(error: &TextError) -> (Option<usize>, Option<usize>) {
    (error.line, error.column)
}

#[test]
fn heights_with_the_unit_in_the_header_or_in_the_cell() {
    let texts = [
        "angle_deg,height_mm\n0,4.1\n90,4.2\n180,4.3\n270,4.4\n",
        "# depth gauge\r\nangle_deg;height_mm\r\n0;4,1\r\n90;4,2\r\n180;4,3\r\n270;4,4\r\n",
        "\u{feff}Angle_deg,Height\n0,4.1 mm\n90,4.2mm\n180,4.3 mm\n270,4.4 mm\n",
        "angle\theight_um\tround\n0 deg\t4100\t1\n90°\t4200\t1\n180 deg\t4300\t1\n\
         270 deg\t4400\t1\n",
        "round,height_in,angle_deg\n1,4.1 mm,0\n1,4.2 mm,90\n1,4.3 mm,180\n1,4.4 mm,270\n",
    ];
    for text in texts {
        let readings = heights(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        let mm: Vec<f64> = readings.iter().map(|r| (r.height.si() * 1e6).round() / 1e3).collect();
        assert_eq!(mm, [4.1, 4.2, 4.3, 4.4], "{text}");
        assert!(readings.iter().all(|reading| reading.round == 1));
    }
}

#[test]
fn heights_that_do_not_fit_are_named_by_line_and_column() {
    let cases = [
        ("", (None, None), "holds no header"),
        ("# only a remark\n\n", (None, None), "holds no header"),
        ("angle_deg,high_mm\n0,4\n", (Some(1), Some(11)), "`high_mm` is not known"),
        ("angle_deg\n0\n", (Some(1), Some(1)), "no column `height_mm`"),
        ("angle_deg,height_kg\n0,4\n", (Some(1), Some(11)), "ends in no unit"),
        ("angle_deg,height\n0,4.1 mm\n90,4.2\n", (Some(3), Some(4)), "has no unit"),
        ("angle_deg,height_mm\n0,NaN\n", (Some(2), Some(3)), "`NaN` does not start"),
        ("angle_deg,height_mm\n0, 4.1 N\n", (Some(2), Some(4)), "`4.1 N`"),
        ("angle_deg,height_mm\n0,4,1\n", (Some(2), Some(5)), "3 cells under 2 columns"),
        ("angle_deg,height_mm\n0,4\n0,5\n", (Some(3), Some(1)), "also read on line 2"),
        ("angle_deg,height_mm\n0,4\n360,5\n", (Some(3), Some(1)), "also read on line 2"),
        ("angle_deg,height_mm,round\n0,4,1\n0,5,1\n", (Some(3), Some(1)), "also read on line 2"),
        ("angle_deg,height_mm,round\n0,4,x\n", (Some(2), Some(5)), "not the number of a round"),
        ("angle_deg,height_mm,height_in\n0,4,5\n", (Some(1), Some(21)), "stands twice"),
        ("angle_deg,height_mm\n0,1e300\n", (Some(2), Some(3)), "beyond anything"),
    ];
    for (text, place, said) in cases {
        let error = heights(text).expect_err(text);
        assert!(error.found.contains(said), "{text:?}: {error}");
        assert_eq!(at(&error), place, "{text:?}: {error}");
        assert!(!error.fits.is_empty());
    }
}

#[test]
fn a_chain_and_its_measured_sizes() {
    let links = chain(
        "name,sign,nominal_mm,upper_mm,lower_mm,distribution\n\
         bore depth,+,42,0.1,-0.1,\nspacer,-,12.5,0,-0.05,uniform\n",
    )
    .unwrap();
    assert_eq!(links.len(), 2);
    let Size::Drawn { nominal, upper, lower, .. } = links[1].size else { panic!() };
    assert!((nominal.si() - 0.0125).abs() < 1e-15 && upper.si() == 0.0);
    assert!((lower.si() + 5e-5).abs() < 1e-18);
    let sizes = measured("name,value_mm,u_mm\nspacer,12.48,0.004\n").unwrap();
    assert_eq!((sizes[0].name.as_str(), sizes[0].line), ("spacer", 2));
}

#[test]
fn chains_that_do_not_fit_are_named_by_line_and_column() {
    let header = "name,sign,nominal_mm,upper_mm,lower_mm\n";
    let cases = [
        ("", (None, None), "holds no link"),
        ("bore,*,42,0,0\n", (Some(2), Some(6)), "`*` is not a sign"),
        ("bore,+,42,-0.1,0.1\n", (Some(2), Some(11)), "is below the lower"),
        (",+,42,0,0\n", (Some(2), Some(1)), "no name"),
        ("bore,+,42,0,0\nbore,-,1,0,0\n", (Some(3), Some(1)), "stands also on line 2"),
        ("bore,+,wide,0,0\n", (Some(2), Some(8)), "does not start with a number"),
    ];
    for (rows, place, said) in cases {
        let error = chain(&format!("{header}{rows}")).expect_err(rows);
        assert!(error.found.contains(said), "{rows:?}: {error}");
        assert_eq!(at(&error), place, "{rows:?}: {error}");
    }
    let error = measured("name,value_mm,u_mm\nbore,42,-0.1\n").unwrap_err();
    assert_eq!(at(&error), (Some(2), Some(9)));
}

#[test]
fn no_text_makes_a_reader_panic() {
    let text = "angle_deg,height,round\n0,4.1 mm,1\n\"90\",\"4,2 mm\",1\n";
    for end in 0..text.len() {
        let _ = heights(&text[..end]);
        let _ = chain(&text[end..]);
        let _ = measured(&text[..end]);
    }
}

#[test]
fn sweeps_with_and_without_housing() {
    use ringtrue_seal::alignment::Surface;
    use ringtrue_seal::definition::joint::Half;
    let read = sweeps(
        "surface;angle_deg;reading_mm;sag_mm;diameter\nRim;0;0,1;-0,02;\nface;90 deg;0,2;;300 mm\n",
    )
    .unwrap();
    assert_eq!((read[0].half, read[0].surface), (Half::B, Surface::Rim));
    assert!((read[0].sag.unwrap().si() + 2e-5).abs() < 1e-15 && read[0].diameter.is_none());
    assert!((read[1].diameter.unwrap().si() - 0.3).abs() < 1e-15 && read[1].sag.is_none());
    let read = sweeps("housing,surface,angle_deg,reading\na,bore,0,5 thou\n").unwrap();
    assert_eq!((read[0].half, read[0].surface), (Half::A, Surface::Bore));
    assert!((read[0].value.si() - 1.27e-4).abs() < 1e-15);
}

#[test]
fn limits_of_finish_and_flatness_as_drawings_write_them() {
    use ringtrue_seal::flatness::FlatnessLimit;
    use ringtrue_seal::roughness::{Parameter, Rule};
    let um = |length: Option<ringtrue_metrology::units::Length>| {
        length.map(|length| (length.si() * 1e9).round() / 1e3)
    };
    let read = |text: &str| finish_limit(text).unwrap();
    assert_eq!(um(read("Ra 0.8 um").max), Some(0.8));
    assert_eq!(
        (read("Rz max 6,3 um").parameter, read("Rzmax 6.3 um").rule),
        (Parameter::Rz, Some(Rule::Max))
    );
    let range = read("ra 0.4 um..3.2 um");
    assert_eq!((um(range.min), um(range.max)), (Some(0.4), Some(3.2)));
    assert_eq!(um(read("Rt 32 uin").max), Some(0.813));
    for wrong in ["", "Ra", "Ra 0.8", "Rk 0.8 um", "Ra 3.2 um..0.4 um", "Rä 1 um", "R"] {
        assert!(finish_limit(wrong).is_err(), "{wrong}");
    }
    assert_eq!(flatness_limit("2 bands").unwrap(), FlatnessLimit::Bands(2.0));
    assert_eq!(flatness_limit("0,5 band").unwrap(), FlatnessLimit::Bands(0.5));
    assert!(matches!(flatness_limit("0.6 um").unwrap(), FlatnessLimit::Length(_)));
    for wrong in ["", "bands", "two bands", "0.6", "2 N/mm"] {
        assert!(flatness_limit(wrong).is_err(), "{wrong}");
    }
}

#[test]
fn traces_and_values_are_told_apart() {
    let trace = finish("x_mm,z_um\n0,1\n0.001,2\n0.002,4\n", None).unwrap();
    let Finish::Trace(trace) = trace else { panic!("a trace is wanted") };
    assert!((trace.step.si() - 1e-6).abs() < 1e-18);
    assert!((trace.heights_um[2] - 4.0).abs() < 1e-12);
    let values = finish("ra_uin\n16\n20\n", None).unwrap();
    assert!(matches!(values, Finish::Values(_, values) if values.len() == 2));
    for wrong in
        ["x_mm\n0\n", "z_um\n1\n2\n3\n", "x_mm,z_um\n0,1\n0,2\n0,3\n", "ra_um,rz_um\n1,2\n"]
    {
        assert!(finish(wrong, None).is_err(), "{wrong}");
    }
}
