//! The table of knobs. A new knob is one row here: the design's field, the page's control, the
//! checks on files and links, and the list that other programs read all come from the row.

use crate::choices::{Choice, LegEnd, Pegs, Stretchers};
use crate::design::Design;
use crate::knob::{Applies, Group, Kind, Knob, Pick, Unit};
use crestrail_timber::Species;

macro_rules! kind {
    (range($unit:ident, $min:literal..$max:literal, step $step:literal, $default:literal)) => {
        Kind::Range { unit: Unit::$unit, min: $min, max: $max, step: $step, default: $default }
    };
    (count($min:literal..$max:literal, $default:literal)) => {
        Kind::Count { min: $min, max: $max, default: $default }
    };
    (choice($choice:ident, $default:literal)) => {
        Kind::Choice { options: <$choice as Choice>::picks, default: $default }
    };
    (species($default:literal)) => {
        Kind::Choice { options: species_picks, default: $default }
    };
}

macro_rules! read {
    ($design:ident, $name:ident, range($($rest:tt)*)) => {
        $design.value(Index::$name as usize)
    };
    ($design:ident, $name:ident, count($($rest:tt)*)) => {
        $design.value(Index::$name as usize) as usize
    };
    ($design:ident, $name:ident, choice($choice:ident, $default:literal)) => {
        <$choice as Choice>::ALL[$design.value(Index::$name as usize) as usize].0
    };
    ($design:ident, $name:ident, species($($rest:tt)*)) => {
        &crestrail_timber::all()[$design.value(Index::$name as usize) as usize]
    };
}

macro_rules! knobs {
    ($( $group:ident { $( $name:ident: $kind:ident ($($arg:tt)*) -> $answer:ty, $label:literal, $help:literal $(, unless $dep:ident = $not:literal)?; )+ } )+) => {
        #[allow(non_camel_case_types, reason = "the names are those of the knobs, as files write them")]
        #[derive(Clone, Copy)]
        enum Index { $($($name,)+)+ }

        /// Every knob, in the order of the page.
        pub static KNOBS: &[Knob] = &[$($(Knob {
            name: stringify!($name),
            label: $label,
            help: $help,
            group: Group::$group,
            kind: kind!($kind($($arg)*)),
            applies: applies!($($dep, $not)?),
        },)+)+];

        impl Design {
            $($(
                #[doc = $help]
                pub fn $name(&self) -> $answer {
                    read!(self, $name, $kind($($arg)*))
                }
            )+)+
        }
    };
}

macro_rules! applies {
    () => {
        None
    };
    ($dep:ident, $not:literal) => {
        Some(Applies { knob: stringify!($dep), not: $not })
    };
}

fn species_picks() -> Vec<Pick> {
    crestrail_timber::all().iter().map(|s| Pick { name: s.id, label: s.name }).collect()
}

knobs! {
    Size {
        seat_height: range(Millimetre, 380.0..520.0, step 1.0, 450.0) -> f64, "Seat height",
            "From the floor to the top of the seat; a seat a little lower than the hollow of the knee lets the feet rest flat.";
        seat_width: range(Millimetre, 400.0..600.0, step 1.0, 462.0) -> f64, "Width in front",
            "Over the outsides of the front legs.";
        narrowing: range(Millimetre, 0.0..110.0, step 1.0, 58.0) -> f64, "Narrower behind by",
            "How much narrower the chair is over its back legs than over its front legs.";
        seat_depth: range(Millimetre, 360.0..540.0, step 1.0, 446.0) -> f64, "Depth over the legs",
            "From the front of the front legs to the back of the back legs, at the seat.";
        back_height: range(Millimetre, 360.0..620.0, step 1.0, 438.0) -> f64, "Height of the back",
            "From the top of the seat to the top of the back legs, straight up.";
    }
    Back {
        rake: range(Degree, 0.0..18.0, step 0.5, 11.0) -> f64, "Lean of the back",
            "How far the back legs lean backwards above the seat, from upright.";
        back_slats: count(2..6, 3) -> usize, "Slats in the back",
            "How many slats lie across the back, one above the other.";
        back_fill: range(Percent, 40.0..66.0, step 1.0, 52.0) -> f64, "Wood in the back",
            "How much of the space between the lowest slat and the highest is wood; the rest is gaps.";
        back_slat_thickness: range(Millimetre, 12.0..30.0, step 1.0, 17.0) -> f64, "Thickness of a back slat",
            "How thick each slat of the back is.";
        back_clear: range(Percent, 15.0..36.0, step 1.0, 32.0) -> f64, "Open above the seat",
            "Where the lowest slat begins, as a share of the back's height; about 200 mm above the seat it meets the small of the back.";
        back_top: range(Millimetre, 12.0..50.0, step 1.0, 28.0) -> f64, "Leg above the top slat",
            "How far the back legs reach above the top slat.";
    }
    Seat {
        seat_slat_width: range(Millimetre, 30.0..110.0, step 1.0, 58.0) -> f64, "Nominal width of a seat slat",
            "About how wide each slat of the seat is; as many as fit are spread evenly.";
        seat_slat_thickness: range(Millimetre, 10.0..26.0, step 1.0, 16.0) -> f64, "Thickness of a seat slat",
            "How thick each slat of the seat is.";
        seat_slat_gap: range(Millimetre, 2.0..20.0, step 0.5, 5.0) -> f64, "Gap between seat slats",
            "The open space between two slats; gaps from 7 to 12 mm can trap a finger.";
        seat_overhang: range(Millimetre, 0.0..30.0, step 1.0, 10.0) -> f64, "Overhang of the seat",
            "How far the seat reaches past the legs in front and at the sides.";
    }
    Legs {
        front_leg: range(Millimetre, 40.0..64.0, step 1.0, 41.0) -> f64, "Side of the front legs",
            "The side of the square front leg.";
        back_leg_thickness: range(Millimetre, 34.0..60.0, step 1.0, 36.0) -> f64, "Thickness of the back legs",
            "The thickness of the plank from which the back leg is sawn, seen from the front.";
        back_leg_depth: range(Millimetre, 40.0..80.0, step 1.0, 48.0) -> f64, "Depth of the back legs at the seat",
            "How deep the back leg is where the seat rails join it, seen from the side.";
        back_leg_top: range(Millimetre, 22.0..60.0, step 1.0, 30.0) -> f64, "Depth of the back legs at the top",
            "How deep the back leg is at its upper end.";
        back_leg_foot: range(Millimetre, 30.0..70.0, step 1.0, 34.0) -> f64, "Depth of the back legs at the foot",
            "How deep the back leg is at the floor.";
        kick: range(Degree, 0.0..14.0, step 0.5, 7.0) -> f64, "Kick of the back leg",
            "How far the back legs run backwards below the seat, from upright; more stands firmer.";
        knee: range(Percent, 10.0..100.0, step 1.0, 70.0) -> f64, "Roundness of the knee",
            "How softly the back leg bends above and below the seat, as a share of the widest curve that has room.";
    }
    Rails {
        rail_width: range(Millimetre, 40.0..110.0, step 1.0, 64.0) -> f64, "Height of the seat rails",
            "How high the four rails under the seat are; higher rails make stronger joints.";
        rail_thickness: range(Millimetre, 18.0..38.0, step 1.0, 24.0) -> f64, "Thickness of the seat rails",
            "How thick the four rails under the seat are.";
        set_back: range(Millimetre, 0.0..5.0, step 0.5, 4.0) -> f64, "Set-back of rails and slats",
            "How far the faces of rails and back slats lie behind the faces of the legs.";
    }
    Stretchers {
        stretchers: choice(Stretchers, "h") -> Stretchers, "Stretchers",
            "The bars that tie the legs together below the seat.";
        stretcher_height: range(Millimetre, 80.0..210.0, step 1.0, 172.0) -> f64, "Height of the stretchers",
            "From the floor to the middle of the stretchers.", unless stretchers = "none";
        stretcher_width: range(Millimetre, 24.0..56.0, step 1.0, 32.0) -> f64, "Height of a stretcher",
            "How high each side stretcher is; the one across lies flat and is as wide.", unless stretchers = "none";
        stretcher_thickness: range(Millimetre, 18.0..30.0, step 1.0, 20.0) -> f64, "Thickness of a stretcher",
            "How thick each stretcher is.", unless stretchers = "none";
    }
    Joints {
        tenon_share: range(Percent, 33.0..46.0, step 1.0, 38.0) -> f64, "Thickness of the tenons",
            "How much of a part's thickness its tenon takes; the nearest cutter of the shop is used.";
        leg_end: choice(LegEnd, "haunched") -> LegEnd, "Top of the front legs",
            "How the rail's tenon leaves the top of the front leg whole.";
        glue_gap: range(Millimetre, 0.5..2.5, step 0.5, 1.5) -> f64, "Room for glue",
            "How much deeper each mortise is than its tenon is long.";
        pegs: choice(Pegs, "square") -> Pegs, "Pegs",
            "Pegs through the tenons hold a joint even when its glue has aged.";
        peg_size: range(Millimetre, 4.0..10.0, step 0.5, 6.0) -> f64, "Size of the pegs",
            "Diameter of a round peg, or side of a square one.", unless pegs = "none";
    }
    Timber {
        species: species("ash_white") -> &'static Species, "Timber",
            "The species all parts are made of.";
        allowance_length: range(Millimetre, 0.0..80.0, step 1.0, 30.0) -> f64, "Extra length",
            "How much longer each piece is first cut than it ends up.";
        allowance_width: range(Millimetre, 0.0..20.0, step 0.5, 5.0) -> f64, "Extra width",
            "How much wider each piece is first cut than it ends up.";
        allowance_thickness: range(Millimetre, 0.0..20.0, step 0.5, 4.0) -> f64, "Extra thickness",
            "How much thicker the sawn timber must be than the finished piece.";
    }
}
