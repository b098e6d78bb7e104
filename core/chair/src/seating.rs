//! Rules for what one sits on: room to move, buttons, ledges, the pad and the weave.

/// Room kept to what stands through the seat, mm, so that the seat can move with the seasons
/// (common practice, no source).
pub const CLEAR: f64 = 3.0;

/// Room in front of and behind what stands through a solid board, mm: it moves across its grain
/// (common practice, no source).
pub const BOARD_CLEAR: f64 = 5.0;

/// The wooden buttons that hold a solid board down on its rails, all mm (common practice, no source).
pub mod button {
    /// From the tongue's root to the end under the board.
    pub const BODY: f64 = 30.0;
    /// Along the rail.
    pub const WIDTH: f64 = 24.0;
    /// Height of the block under the board.
    pub const HEIGHT: f64 = 18.0;
    /// How far the tongue reaches into the slot when the board is as it was made.
    pub const TONGUE: f64 = 7.0;
    /// The tongue's top below the rail's top.
    pub const BELOW: f64 = 8.0;
    /// Height of the tongue.
    pub const TONGUE_HEIGHT: f64 = 6.0;
    /// How deep the slot is.
    pub const DEPTH: f64 = 12.0;
    /// How much of the tongue must stay in its slot.
    pub const HOLD: f64 = 2.0;
    /// Between the block and the rail: the board's way, and 3 mm for a rail that leans up to 15°.
    pub const OFF: f64 = DEPTH - TONGUE + 3.0;
    /// How much wider and higher the slot is than the tongue, at each side.
    pub const PLAY: f64 = 0.3;
    /// How far the board may move either way.
    pub const MOVES: f64 = if DEPTH - TONGUE < TONGUE - HOLD { DEPTH - TONGUE } else { TONGUE - HOLD };
}

/// The pad's board lies on strips inside the rails, all mm (common practice, no source).
pub mod ledge {
    /// Height of the strip.
    pub const HEIGHT: f64 = 22.0;
    /// How far it stands out from the rail.
    pub const OUT: f64 = 18.0;
    /// The plywood's top below the rails' tops.
    pub const SUNK: f64 = 2.0;
    /// Between one strip and another, or a leg.
    pub const APART: f64 = 1.0;
    /// The greatest distance of its screws.
    pub const SCREWS: f64 = 120.0;
}

/// Room round the plywood for the cover's edge, and round the finished pad, mm (common practice, no source).
pub const PLY_ROOM: f64 = 4.0;
/// See [`PLY_ROOM`].
pub const PAD_ROOM: f64 = 1.5;

/// Thickness of the pad's plywood by the lesser span of its opening, mm: 9 up to 380 mm, else 12
/// (common practice, no source).
pub fn plywood(span: f64) -> f64 {
    if span > 380.0 { 12.0 } else { 9.0 }
}

/// More cord than the covered area asks for: crossings, tacked and knotted ends (common practice, no source).
pub const CORD_EXTRA: f64 = 1.10;

/// Length of cord, mm, for a place woven round four rails: the weave lies over and under the opening
/// and down the outer faces of the rails, one cord beside the other, so
/// length = (2 · area + faces) / thickness · 1.10. `area` is what the weave covers seen from above,
/// `faces` the outer faces of the four rails, mm² (worked out; the allowance is common practice).
pub fn cord_length(area: f64, faces: f64, thickness: f64) -> f64 {
    (2.0 * area + faces) / thickness * CORD_EXTRA
}
