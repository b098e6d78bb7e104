//! The table of knobs. A new knob is one row here: the design's field, the page's control, the
//! checks on files and links, and the list that other programs read all come from the row.

use crate::choices::{
    Arms, Back, Choice, Corner, Crest, Family, HeaviestUser, JointKind, LegEnd, LegShape, PegWay, Pegs,
    Places, Seat, Sits, Spacing, Stance, Stands, Stretchers, Table, Weight,
};
use crate::design::Design;
use crate::knob::{Applies, Group, Kind, Knob, Pick, Unit};
use crestrail_phrases::phrase;
use crestrail_timber::Species;

macro_rules! kind {
    (range($unit:ident, $min:literal..$max:literal, step $step:literal, $default:literal)) => {
        Kind::Range { unit: Unit::$unit, min: $min, max: $max, step: $step, default: $default }
    };
    (count($min:literal..$max:literal, $default:literal)) => {
        Kind::Count { min: $min, max: $max, default: $default }
    };
    (choice($choice:ident, $default:literal)) => {
        Kind::Choice { options: <$choice as Choice>::picks, allowed: &[], default: $default }
    };
    (species($default:literal)) => {
        Kind::Choice { options: species_picks, allowed: &[], default: $default }
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
    ($( $group:ident { $( $name:ident: $kind:ident ($($arg:tt)*) -> $answer:ty, $label:literal, $help:literal $(, when $dep:ident in [$($any:literal),+])*; )+ } )+) => {
        #[allow(non_camel_case_types, reason = "the names are those of the knobs, as files write them")]
        #[derive(Clone, Copy)]
        enum Index { $($($name,)+)+ }

        /// Every knob, in the order of the page, with the limits of a side chair.
        pub static KNOBS: &[Knob] = &[$($(Knob {
            name: stringify!($name),
            label: phrase($label),
            help: phrase($help),
            group: Group::$group,
            kind: kind!($kind($($arg)*)),
            applies: &[$(Applies { knob: stringify!($dep), any: &[$($any),+] }),*],
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

fn species_picks() -> Vec<Pick> {
    crestrail_timber::all().iter().map(|s| Pick { name: s.id, label: s.name }).collect()
}

knobs! {
    Kind {
        family: choice(Family, "side_chair") -> Family, "Kind of chair",
            "Each kind brings limits and first sizes of its own.";
        places: choice(Places, "one") -> Places, "Places to sit",
            "How many sit side by side; each place has legs of its own on both sides.";
    }
    Use {
        user: choice(HeaviestUser, "kg110") -> HeaviestUser, "Heaviest user",
            "The chair is checked for somebody of this weight; heavier people strain joints more and tip it more easily.";
        sits: choice(Sits, "adults") -> Sits, "Who sits here",
            "Whose body the sizes are compared with; strength is checked for the heaviest user instead.";
        stature: range(Millimetre, 1400.0..2050.0, step 5.0, 1700.0) -> f64, "Height of the sitter",
            "How tall the sitter is, barefoot.",
            when sits in ["adult"];
        weight_known: choice(Weight, "unknown") -> Weight, "Weight of the sitter",
            "The weight tells how wide the hips are and how high the thighs; without it, the chair has room for nearly everybody so tall.",
            when sits in ["adult"];
        weight: range(Kilogram, 40.0..160.0, step 1.0, 70.0) -> f64, "The sitter weighs",
            "How heavy the sitter is.",
            when sits in ["adult"], when weight_known in ["given"];
        child_stature: range(Millimetre, 1050.0..1800.0, step 5.0, 1500.0) -> f64, "Height of the child",
            "How tall the child is, barefoot.",
            when sits in ["child"];
        school_mark: count(4..7, 6) -> usize, "School size mark",
            "The mark on school chairs: 1 for about 3 years, 3 for 6 to 7, 5 for 11 to 13, 7 for grown-ups.",
            when sits in ["school"];
        table: choice(Table, "given") -> Table, "Table",
            "Whether the chair is to suit a table.";
        table_height: range(Millimetre, 600.0..850.0, step 5.0, 740.0) -> f64, "Height of the table",
            "From the floor to the top of the table.",
            when table in ["given"];
        table_depth: range(Millimetre, 15.0..180.0, step 5.0, 80.0) -> f64, "Table top with its rail",
            "How far the table reaches down from its top to the lowest edge above the legs of whoever sits there.",
            when table in ["given"];
        stands: choice(Stands, "house") -> Stands, "Where it will stand",
            "How dry and how damp the room becomes over a year; wood shrinks and swells with it.";
        made_at: range(Percent, 5.0..16.0, step 0.5, 9.0) -> f64, "Moisture when made",
            "How much water the wood holds when the chair is made, by the maker's moisture meter; 8 to 10 % suits heated houses.";
    }
    Size {
        seat_height: range(Millimetre, 380.0..520.0, step 1.0, 450.0) -> f64, "Seat height",
            "From the floor to the top of the seat in front; a seat a little lower than the hollow of the knee lets the feet rest flat.";
        seat_width: range(Millimetre, 400.0..600.0, step 1.0, 462.0) -> f64, "Width in front",
            "Over the outsides of the front legs, at the seat.";
        narrowing: range(Millimetre, 0.0..110.0, step 1.0, 58.0) -> f64, "Narrower behind by",
            "How much narrower the chair is over its back legs than over its front legs.";
        seat_depth: range(Millimetre, 360.0..540.0, step 1.0, 446.0) -> f64, "Depth over the legs",
            "From the front of the front legs to the back of the back legs, at the seat.";
        seat_slope: range(Degree, 0.0..5.0, step 0.5, 0.0) -> f64, "Slope of the seat",
            "How far the seat falls towards the back; a little keeps one from sliding forward.";
        back_height: range(Millimetre, 360.0..620.0, step 1.0, 438.0) -> f64, "Height of the back",
            "From the top of the seat to the top of the back legs, straight up.",
            when back in ["slats", "laths", "splat", "panel"];
    }
    Back {
        back: choice(Back, "slats") -> Back, "Back",
            "What one leans against.";
        rake: range(Degree, 0.0..18.0, step 0.5, 11.0) -> f64, "Lean of the back",
            "How far the back legs lean backwards above the seat, from upright.",
            when back in ["slats", "laths", "splat", "panel"];
        stance: choice(Stance, "leaning") -> Stance, "Faces of the slats",
            "Whether the slats lean with the back or stand upright.",
            when back in ["slats"];
        back_slats: count(2..6, 3) -> usize, "Slats in the back",
            "How many slats lie across the back, one above the other.",
            when back in ["slats"];
        back_fill: range(Percent, 40.0..66.0, step 1.0, 52.0) -> f64, "Wood in the back",
            "How much of the space between the lowest slat and the highest is wood; the rest is gaps.",
            when back in ["slats"];
        slat_growth: range(Percent, 0.0..60.0, step 5.0, 0.0) -> f64, "Slats grow upwards by",
            "How much higher the topmost slat is than the lowest.",
            when back in ["slats"];
        spacing: choice(Spacing, "gaps") -> Spacing, "Spacing of the slats",
            "How slats of unequal height share the back.",
            when back in ["slats"];
        back_slat_thickness: range(Millimetre, 12.0..38.0, step 1.0, 17.0) -> f64, "Thickness of the back's pieces",
            "How thick each slat of the back is, or each rail of it.",
            when back in ["slats", "laths", "splat", "panel"];
        back_clear: range(Percent, 15.0..36.0, step 1.0, 32.0) -> f64, "Open above the seat",
            "Where the lowest piece of the back begins, as a share of the back's height; about 200 mm above the seat it meets the small of the back.",
            when back in ["slats", "laths", "splat", "panel"];
        back_top: range(Millimetre, 10.0..50.0, step 1.0, 28.0) -> f64, "Leg above the back",
            "How far the back legs reach above the topmost piece of the back.",
            when back in ["slats", "laths", "splat", "panel"];
        crest: choice(Crest, "straight") -> Crest, "Crest rail",
            "The upper edge of the topmost piece of the back.",
            when back in ["slats", "laths", "splat", "panel"];
        crest_rise: range(Millimetre, 4.0..24.0, step 1.0, 14.0) -> f64, "Rise of the crest rail",
            "How much higher the crest rail is in the middle than at its ends.",
            when back in ["slats", "laths", "splat", "panel"], when crest in ["curved"];
        back_rail_width: range(Millimetre, 36.0..80.0, step 1.0, 50.0) -> f64, "Height of the back's rails",
            "How high the two rails are between which laths, splat or panel stand.",
            when back in ["laths", "splat", "panel"];
        laths: count(3..9, 6) -> usize, "Laths",
            "How many upright laths stand in the back of one place.",
            when back in ["laths"];
        lath_width: range(Millimetre, 14.0..40.0, step 1.0, 22.0) -> f64, "Width of a lath",
            "How broad each lath is, seen from the front.",
            when back in ["laths"];
        splat_share: range(Percent, 20.0..60.0, step 1.0, 36.0) -> f64, "Width of the splat",
            "How much of the width between the back legs the splat takes.",
            when back in ["splat"];
        fill_thickness: range(Millimetre, 8.0..16.0, step 1.0, 10.0) -> f64, "Thickness of laths, splat or panel",
            "How thick the piece is that stands between the back's rails.",
            when back in ["laths", "splat", "panel"];
    }
    Seat {
        seat: choice(Seat, "across") -> Seat, "Seat",
            "What one sits on.";
        seat_slat_width: range(Millimetre, 30.0..110.0, step 1.0, 58.0) -> f64, "Nominal width of a seat slat",
            "About how wide each slat of the seat is; as many as fit are spread evenly.",
            when seat in ["across", "lengthwise"];
        seat_slat_thickness: range(Millimetre, 10.0..26.0, step 1.0, 16.0) -> f64, "Thickness of the seat",
            "How thick each slat or the board of the seat is, the padding above the rails, or the cord above them.",
            when seat in ["across", "lengthwise", "board", "pad"];
        seat_slat_gap: range(Millimetre, 2.0..20.0, step 0.5, 5.0) -> f64, "Gap between seat slats",
            "The open space between two slats; gaps from 7 to 12 mm can trap a finger.",
            when seat in ["across", "lengthwise"];
        seat_overhang: range(Millimetre, 0.0..30.0, step 1.0, 10.0) -> f64, "Overhang of the seat",
            "How far the seat reaches past the legs in front and at the sides.",
            when seat in ["across", "lengthwise", "board"];
        cord: range(Millimetre, 3.0..6.0, step 0.5, 4.0) -> f64, "Thickness of the cord",
            "How thick the cord is that is woven round the rails.",
            when seat in ["cord"];
    }
    Arms {
        arms: choice(Arms, "none") -> Arms, "Arms",
            "What carries the arms.";
        arm_height: range(Millimetre, 170.0..270.0, step 1.0, 220.0) -> f64, "Height of the arms",
            "From the top of the seat to the top of the arms.",
            when arms in ["legs", "posts"];
        arm_width: range(Millimetre, 40.0..80.0, step 1.0, 54.0) -> f64, "Width of an arm",
            "How broad each arm is.",
            when arms in ["legs", "posts"];
        arm_thickness: range(Millimetre, 18.0..36.0, step 1.0, 24.0) -> f64, "Thickness of an arm",
            "How thick each arm is.",
            when arms in ["legs", "posts"];
        arm_overhang: range(Millimetre, 0.0..40.0, step 1.0, 12.0) -> f64, "Arm beyond its post",
            "How far each arm reaches forward past the leg or post that carries it.",
            when arms in ["legs", "posts"];
        post_setback: range(Percent, 8.0..40.0, step 1.0, 18.0) -> f64, "Posts behind the front",
            "How far behind the front legs the posts of the arms stand, as a share of the rail.",
            when arms in ["posts"];
    }
    Legs {
        front_leg: range(Millimetre, 40.0..64.0, step 1.0, 41.0) -> f64, "Side of the front legs",
            "The side of the square front leg.";
        leg_shape: choice(LegShape, "square") -> LegShape, "Shape of the front legs",
            "Square, tapered towards the foot, or with its outer edges planed off.";
        leg_foot: range(Percent, 50.0..95.0, step 1.0, 65.0) -> f64, "Foot of a tapered leg",
            "Side of the foot as a share of the leg's side.",
            when leg_shape in ["tapered"];
        chamfer: range(Millimetre, 2.0..10.0, step 0.5, 5.0) -> f64, "Width planed off",
            "How broad the face is that replaces each outer edge.",
            when leg_shape in ["chamfered"];
        splay: range(Degree, 0.0..4.0, step 0.5, 0.0) -> f64, "Splay to the sides",
            "How far the outer legs spread sideways towards the floor, from upright.";
        front_splay: range(Degree, 0.0..6.0, step 0.5, 0.0) -> f64, "Splay to the front",
            "How far the front legs run forward towards the floor, from upright.";
        back_leg_thickness: range(Millimetre, 34.0..60.0, step 1.0, 36.0) -> f64, "Thickness of the back legs",
            "The thickness of the plank from which the back leg is sawn, seen from the front.";
        back_leg_depth: range(Millimetre, 40.0..80.0, step 1.0, 48.0) -> f64, "Depth of the back legs at the seat",
            "How deep the back leg is where the seat rails join it, seen from the side.";
        back_leg_top: range(Millimetre, 22.0..60.0, step 1.0, 30.0) -> f64, "Depth of the back legs at the top",
            "How deep the back leg is at its upper end.",
            when back in ["slats", "laths", "splat", "panel"];
        back_leg_foot: range(Millimetre, 30.0..70.0, step 1.0, 34.0) -> f64, "Depth of the back legs at the foot",
            "How deep the back leg is at the floor.";
        kick: range(Degree, 0.0..14.0, step 0.5, 7.0) -> f64, "Kick of the back leg",
            "How far the back legs run backwards below the seat, from upright; more stands firmer.";
        knee: range(Percent, 10.0..100.0, step 1.0, 70.0) -> f64, "Roundness of the knee",
            "How softly the back leg bends above and below the seat, as a share of the widest curve that has room.";
    }
    Rails {
        rail_width: range(Millimetre, 40.0..110.0, step 1.0, 64.0) -> f64, "Height of the seat rails",
            "How high the rails under the seat are; higher rails make stronger joints.";
        rail_thickness: range(Millimetre, 18.0..38.0, step 1.0, 24.0) -> f64, "Thickness of the seat rails",
            "How thick the rails under the seat are.";
        set_back: range(Millimetre, 0.0..5.0, step 0.5, 4.0) -> f64, "Set-back of rails and slats",
            "How far the faces of rails and back slats lie behind the faces of the legs.";
    }
    Stretchers {
        stretchers: choice(Stretchers, "h") -> Stretchers, "Stretchers",
            "The bars that tie the legs together below the seat.";
        stretcher_height: range(Millimetre, 80.0..210.0, step 1.0, 172.0) -> f64, "Height of the stretchers",
            "From the floor to the middle of the stretchers at the sides.",
            when stretchers in ["sides", "h", "box"];
        front_stretcher_height: range(Millimetre, 80.0..210.0, step 1.0, 120.0) -> f64, "Height of the front stretcher",
            "From the floor to the middle of the stretcher in front, on which feet rest on a high chair.",
            when stretchers in ["box"];
        back_stretcher_height: range(Millimetre, 80.0..210.0, step 1.0, 200.0) -> f64, "Height of the back stretcher",
            "From the floor to the middle of the stretcher behind.",
            when stretchers in ["box"];
        stretcher_width: range(Millimetre, 24.0..56.0, step 1.0, 32.0) -> f64, "Height of a stretcher",
            "How high each stretcher is; one that lies across between the others lies flat and is as wide.",
            when stretchers in ["sides", "h", "box"];
        stretcher_thickness: range(Millimetre, 18.0..30.0, step 1.0, 20.0) -> f64, "Thickness of a stretcher",
            "How thick each stretcher is.",
            when stretchers in ["sides", "h", "box"];
    }
    Joints {
        rail_joint: choice(JointKind, "rule") -> JointKind, "Joints of the seat rails",
            "How the rails under the seat join the legs.";
        stretcher_joint: choice(JointKind, "rule") -> JointKind, "Joints of the stretchers",
            "How the stretchers join the legs.",
            when stretchers in ["sides", "h", "box"];
        back_joint: choice(JointKind, "rule") -> JointKind, "Joints of the back",
            "How the slats or rails of the back join the back legs.",
            when back in ["slats", "laths", "splat", "panel"];
        arm_joint: choice(JointKind, "rule") -> JointKind, "Joints of the arms",
            "How the arms join posts and back legs.",
            when arms in ["legs", "posts"];
        corner: choice(Corner, "rule") -> Corner, "Tenons that meet in a leg",
            "What two tenons do that meet inside one leg.";
        tenon_share: range(Percent, 33.0..46.0, step 1.0, 38.0) -> f64, "Thickness of the tenons",
            "How much of a part's thickness its tenon takes; the nearest cutter of the shop is used.";
        tenon_depth: range(Percent, 45.0..75.0, step 1.0, 70.0) -> f64, "Depth of the tenons",
            "How far a tenon may reach into its leg, as a share of the leg.";
        back_tenon_depth: range(Percent, 35.0..75.0, step 1.0, 70.0) -> f64, "Depth of the back's tenons",
            "How far the tenons of the back may reach into the back legs, as a share of the leg.",
            when back in ["slats", "laths", "splat", "panel"];
        leg_end: choice(LegEnd, "haunched") -> LegEnd, "Top of the front legs",
            "How the rail's tenon leaves the top of the front leg whole.";
        glue_gap: range(Millimetre, 0.5..2.5, step 0.5, 1.5) -> f64, "Room for glue",
            "How much deeper each mortise is than its tenon is long.";
        pegs: choice(Pegs, "square") -> Pegs, "Pegs",
            "Pegs through the tenons hold a joint even when its glue has aged.";
        peg_size: range(Millimetre, 4.0..10.0, step 0.5, 6.0) -> f64, "Size of the pegs",
            "Diameter of a round peg, or side of a square one.",
            when pegs in ["round", "square"];
        peg_way: choice(PegWay, "straight") -> PegWay, "Holes of the pegs",
            "Straight through, or drawn a little so that the peg pulls the joint tight.",
            when pegs in ["round", "square"];
        draw: range(Millimetre, 0.5..2.0, step 0.25, 1.0) -> f64, "Draw of the pegs",
            "How much nearer to the shoulder the hole in the tenon is than the hole in the leg.",
            when pegs in ["round", "square"], when peg_way in ["drawn"];
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
