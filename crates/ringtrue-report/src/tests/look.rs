#[test]
fn look() {
    let Ok(folder) = std::env::var("RINGTRUE_LOOK") else { return };
    for (name, case) in super::fixture::all() {
        let document = case.document();
        let dir = std::path::Path::new(&folder).join(name);
        std::fs::create_dir_all(&dir).unwrap();
        for d in crate::drawings(&document) {
            std::fs::write(dir.join(format!("{}.svg", d.name)), d.svg).unwrap();
        }
        let t = std::time::Instant::now();
        match crate::pdf::pdf(&document) {
            Ok(bytes) => std::fs::write(dir.join("report.pdf"), bytes).unwrap(),
            Err(e) => println!("{name}: {e}"),
        }
        println!("{name}: {:?}", t.elapsed());
    }
}
