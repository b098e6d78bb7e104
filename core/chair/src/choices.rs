//! The choices a design makes among a few named possibilities.

use crate::knob::Pick;
use crestrail_phrases::{phrase, word};
use crestrail_timber::moisture::Humidity;

/// A closed list of named possibilities.
pub trait Choice: Copy + Sized + 'static {
    /// All of them with the name used in files and the label shown.
    const ALL: &'static [(Self, Pick)];

    /// Its place in the list.
    fn index(self) -> usize;

    /// The name used in files.
    fn name(self) -> &'static str {
        Self::ALL[self.index()].1.name
    }

    /// The label shown.
    fn label(self) -> &'static str {
        word(Self::ALL[self.index()].1.label)
    }

    /// The names with their English labels, in order; [`Pick::spoken`] is for whoever shows them.
    fn picks() -> Vec<Pick> {
        Self::ALL.iter().map(|(_, pick)| *pick).collect()
    }
}

macro_rules! choice {
    ($(#[$doc:meta])* $name:ident { $( $(#[$vdoc:meta])* $variant:ident = $id:literal, $label:literal; )+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum $name { $( $(#[$vdoc])* $variant ),+ }

        impl Choice for $name {
            const ALL: &'static [(Self, Pick)] =
                &[$((Self::$variant, Pick { name: $id, label: phrase($label) })),+];

            fn index(self) -> usize {
                self as usize
            }
        }
    };
}

choice! {
    /// Kinds of chair: each is a set of limits and first values for the knobs, and nothing else.
    Family {
        /// A chair to sit at a table.
        SideChair = "side_chair", "Side chair";
        /// A chair with arms.
        Armchair = "armchair", "Armchair";
        /// A seat on four legs.
        Stool = "stool", "Stool";
        /// A high chair for a worktop about 900 mm high.
        CounterChair = "counter_chair", "Counter chair";
        /// A high chair for a bar about 1050 mm high.
        BarChair = "bar_chair", "Bar chair";
        /// A bench for two with legs in the middle.
        BenchTwo = "bench_two", "Bench for two";
        /// A bench for three with two pairs of legs between.
        BenchThree = "bench_three", "Bench for three";
        /// A small chair.
        ChildChair = "child_chair", "Child's chair";
    }
}

choice! {
    /// How many sit side by side, each place between legs of its own.
    Places {
        /// One.
        One = "one", "One";
        /// Two, with a pair of legs in the middle.
        Two = "two", "Two";
        /// Three, with two pairs of legs between.
        Three = "three", "Three";
    }
}

choice! {
    /// What fills the back.
    Back {
        /// Horizontal slats between the back legs.
        Slats = "slats", "Level slats";
        /// Upright laths between two rails.
        Laths = "laths", "Upright laths";
        /// A broad upright board between two rails.
        Splat = "splat", "One broad splat";
        /// A thin panel in grooves of two rails.
        Panel = "panel", "Frame and panel";
        /// No back.
        Open = "open", "No back";
    }
}

choice! {
    /// How the pieces across the back stand.
    Stance {
        /// Their faces follow the lean of the back.
        Leaning = "leaning", "Leaning with the back";
        /// Their faces are upright.
        Upright = "upright", "Upright";
    }
}

choice! {
    /// How slats of unequal height share the back.
    Spacing {
        /// All gaps are alike.
        Gaps = "gaps", "Equal gaps";
        /// All middles are equally far apart.
        Pitch = "pitch", "Equal steps";
    }
}

choice! {
    /// The upper edge of the topmost piece of the back.
    Crest {
        /// Straight.
        Straight = "straight", "Straight";
        /// Sawn to a curve that rises in the middle.
        Curved = "curved", "Sawn to a curve";
    }
}

choice! {
    /// What one sits on.
    Seat {
        /// Slats from side to side.
        Across = "across", "Slats from side to side";
        /// Slats from front to back.
        Lengthwise = "lengthwise", "Slats from front to back";
        /// A solid board that is held so that it can swell and shrink.
        Board = "board", "Solid board";
        /// A padded plywood frame dropped between the rails.
        Pad = "pad", "Drop-in pad";
        /// Cord woven round the rails.
        Cord = "cord", "Woven cord";
    }
}

choice! {
    /// What carries the arms.
    Arms {
        /// No arms.
        None = "none", "None";
        /// The front legs go on up to the arms.
        Legs = "legs", "On longer front legs";
        /// Short posts stand on the side rails.
        Posts = "posts", "On posts behind the front legs";
    }
}

choice! {
    /// The shape of a front leg below the rails.
    LegShape {
        /// Square from end to end.
        Square = "square", "Square";
        /// The two inner faces run in towards the foot.
        Tapered = "tapered", "Tapered on the inner faces";
        /// The outer arrises are planed off.
        Chamfered = "chamfered", "Outer edges planed off";
    }
}

choice! {
    /// Stretchers below the seat.
    Stretchers {
        /// No stretchers.
        None = "none", "None";
        /// One on each side, front leg to back leg.
        Sides = "sides", "One on each side";
        /// One on each side and one across between them.
        H = "h", "Sides and one across (H)";
        /// One on each of the four sides; the one in front is a footrest on a high chair.
        Box = "box", "All round";
    }
}

choice! {
    /// Kinds of joint between two pieces.
    JointKind {
        /// The kind the rules pick.
        Rule = "rule", "As the rules pick";
        /// A tenon that ends inside its host.
        Blind = "blind", "Blind tenon";
        /// A tenon that goes through and is wedged from outside.
        Through = "through", "Through tenon, wedged";
        /// A tenon with a shoulder on one face only.
        BareFaced = "bare_faced", "Bare-faced tenon";
        /// Two tenons one above the other.
        Twin = "twin", "Twin tenons";
        /// A separate tenon in two mortises.
        Loose = "loose", "Loose tenon";
        /// A pair of dowels.
        Dowels = "dowels", "Pair of dowels";
    }
}

choice! {
    /// What two tenons do that meet in one leg.
    Corner {
        /// The way that leaves the most glue area.
        Rule = "rule", "The way with most glue area";
        /// Both end in a mitre.
        Mitred = "mitred", "Mitred";
        /// Each loses half of its height and passes the other.
        Halved = "halved", "Halved past each other";
        /// One stands above the other.
        Staggered = "staggered", "Staggered in height";
    }
}

choice! {
    /// Pegs through the tenons.
    Pegs {
        /// Glued joints without pegs.
        None = "none", "None";
        /// Round pegs.
        Round = "round", "Round";
        /// Square pegs in squared holes.
        Square = "square", "Square";
    }
}

choice! {
    /// How pegs draw their joint.
    PegWay {
        /// The hole runs straight through leg and tenon.
        Straight = "straight", "Straight";
        /// The hole in the tenon is set nearer to the shoulder, so that the peg draws the joint tight.
        Drawn = "drawn", "Draw-bored";
    }
}

choice! {
    /// How the end of a leg is kept whole above a mortise.
    LegEnd {
        /// The tenon stops below the leg's end and a plain shoulder covers the rest.
        Closed = "closed", "Closed: tenon lowered";
        /// A sloping haunch fills the lowered part and holds the rail from twisting.
        Haunched = "haunched", "Sloping haunch";
    }
}

choice! {
    /// Who sits here.
    Sits {
        /// Anybody grown up.
        Adults = "adults", "Adults in general";
        /// One grown-up person of a known height.
        Adult = "adult", "One adult, by height";
        /// One child of a known height.
        Child = "child", "One child, by height";
        /// The pupils of a size mark.
        School = "school", "Pupils, by school size mark";
    }
}

choice! {
    /// Whether the weight of the sitter is known.
    Weight {
        /// It is not.
        Unknown = "unknown", "Not given";
        /// It is.
        Given = "given", "Given";
    }
}

choice! {
    /// What the chair stands at.
    Table {
        /// A table or worktop.
        Given = "given", "At a table";
        /// No table.
        None = "none", "Away from tables";
    }
}

choice! {
    /// Where the chair will stand.
    Stands {
        /// Dry in winter from the heating, damp in summer.
        House = "house", "A heated house, four seasons";
        /// About the same all year.
        Even = "even", "Mild and even all year";
        /// Damp for months.
        Damp = "damp", "Damp for months, not heated";
        /// Dry all year.
        Dry = "dry", "Dry all year, desert or highland";
    }
}

impl Stands {
    /// Relative humidity of the room in the driest and in the dampest weeks. Common practice, no source; by the handbook's
    /// equation they make 6 to 12, 8 to 11, 9 to 16 and 3 to 8 % of moisture, and its map of indoor moisture in the United States, as
    /// quoted, gives 6 to 10 for most of the country, 8 to 13 for damp coasts and 4 to 9 for the dry south-west.
    pub fn humidity(self) -> [Humidity; 2] {
        const fn from_to(dry: u8, damp: u8) -> [Humidity; 2] {
            [Humidity::percent(dry), Humidity::percent(damp)]
        }
        match self {
            Self::House => const { from_to(30, 65) },
            Self::Even => const { from_to(45, 60) },
            Self::Damp => const { from_to(50, 80) },
            Self::Dry => const { from_to(15, 45) },
        }
    }
}

choice! {
    /// The heaviest person the chair is meant for.
    HeaviestUser {
        /// Up to 30 kg.
        Kg30 = "kg30", "Small children, up to 30 kg";
        /// Up to 50 kg.
        Kg50 = "kg50", "Children, up to 50 kg";
        /// Up to 75 kg.
        Kg75 = "kg75", "Light users, up to 75 kg";
        /// Up to 110 kg.
        Kg110 = "kg110", "Adults, up to 110 kg";
        /// Up to 125 kg.
        Kg125 = "kg125", "Heavy users, up to 125 kg";
        /// Up to 150 kg.
        Kg150 = "kg150", "Very heavy users, up to 150 kg";
    }
}

impl HeaviestUser {
    /// Mass, kg.
    pub fn mass(self) -> f64 {
        match self {
            Self::Kg30 => 30.0,
            Self::Kg50 => 50.0,
            Self::Kg75 => 75.0,
            Self::Kg110 => 110.0,
            Self::Kg125 => 125.0,
            Self::Kg150 => 150.0,
        }
    }
}
