use super::*;
use crate::chair::Chair;
use crate::design::Design;
use crate::joints::Bench;

#[test]
fn show() {
    let chair = Chair::resolve(&Design::default(), &Bench::default()).unwrap();
    for step in &chair.assembly.steps {
        println!("{} {:?}", step.number, step.task);
        for m in &step.moves {
            let ids = |v: &[PartId]| v.iter().map(|p| p.to_string()).collect::<Vec<_>>().join("; ");
            println!(
                "   {} -> {} | {:?} {:.1} clear {} before {:?} rank {}",
                ids(&m.goes_in),
                ids(&m.into),
                m.direction,
                m.by,
                m.clear,
                m.before,
                m.rank
            );
        }
    }
    println!("{:?}", chair.assembly.blocked);
}
