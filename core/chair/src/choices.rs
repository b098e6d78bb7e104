//! The choices a design makes among a few named possibilities.

use crate::knob::Pick;

/// A closed list of named possibilities.
pub trait Choice: Copy + Sized + 'static {
    /// All of them with the name used in files and the label shown.
    const ALL: &'static [(Self, Pick)];

    /// The names and labels in order.
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
                &[$((Self::$variant, Pick { name: $id, label: $label })),+];
        }
    };
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
    /// How the end of a leg is kept whole above a mortise.
    LegEnd {
        /// The tenon stops below the leg's end and a plain shoulder covers the rest.
        Closed = "closed", "Closed: tenon lowered";
        /// A sloping haunch fills the lowered part and holds the rail from twisting.
        Haunched = "haunched", "Sloping haunch";
    }
}
