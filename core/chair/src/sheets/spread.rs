//! Labels in a row: as near to what they name as they can stand without touching.

/// A label's wish and what it takes, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Wish {
    /// Where its middle would best stand.
    pub(super) at: f64,
    /// How much room it takes.
    pub(super) room: f64,
}

/// The middles of all labels, in the order of `wishes`, which run upwards: none overlaps, each group of labels that push
/// one another stands around the mean of their wishes (the pool-adjacent-violators method: least squares of a monotone
/// sequence), then moved as a whole to begin no lower than `low`.
pub(super) fn spread(wishes: &[Wish], low: f64) -> Vec<f64> {
    // Blocks of labels side by side: how many, the sum of wishes less their own places in the block, and its length.
    let mut blocks: Vec<(usize, f64, f64)> = Vec::new();
    for wish in wishes {
        let mut block = (1, wish.at - wish.room / 2.0, wish.room);
        while let Some(&(count, sum, length)) = blocks.last() {
            let (end, start) = (sum / count as f64 + length, block.1 / block.0 as f64);
            if end <= start {
                break;
            }
            block = (count + block.0, sum + block.1 - block.0 as f64 * length, length + block.2);
            blocks.pop();
        }
        blocks.push(block);
    }
    let mut rooms = wishes.iter().map(|wish| wish.room);
    let mut places = Vec::with_capacity(wishes.len());
    let mut free = low;
    for (count, sum, _) in blocks {
        let mut at = (sum / count as f64).max(free);
        for room in rooms.by_ref().take(count) {
            places.push(at + room / 2.0);
            at += room;
        }
        free = at;
    }
    places
}

/// As [`spread`], and none ends after `high`: where all of them together have room between the two.
pub(super) fn spread_within(wishes: &[Wish], low: f64, high: f64) -> Vec<f64> {
    let mut places = spread(wishes, low);
    let mut end = high;
    for (place, wish) in places.iter_mut().zip(wishes).rev() {
        *place = place.min(end - wish.room / 2.0);
        end = *place - wish.room / 2.0;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wishes(rows: &[(f64, f64)]) -> Vec<Wish> {
        rows.iter().map(|&(at, room)| Wish { at, room }).collect()
    }

    #[test]
    fn labels_with_room_stand_where_they_wish() {
        assert_eq!(spread(&wishes(&[(10.0, 4.0), (20.0, 4.0)]), 0.0), [10.0, 20.0]);
    }

    #[test]
    fn labels_that_meet_share_the_way() {
        assert_eq!(spread(&wishes(&[(10.0, 6.0), (12.0, 6.0)]), 0.0), [8.0, 14.0]);
        assert_eq!(spread(&wishes(&[(10.0, 6.0), (10.0, 6.0), (10.0, 6.0)]), 0.0), [4.0, 10.0, 16.0]);
        let pushed = spread(&wishes(&[(10.0, 6.0), (12.0, 6.0), (15.0, 6.0), (40.0, 6.0)]), 0.0);
        assert!(pushed.windows(2).all(|w| w[1] - w[0] >= 6.0 - 1e-9), "{pushed:?}");
        assert_eq!(pushed[3], 40.0);
    }

    #[test]
    fn none_ends_after_the_end() {
        assert_eq!(
            spread_within(&wishes(&[(10.0, 4.0), (29.0, 6.0), (30.0, 6.0)]), 0.0, 30.0),
            [10.0, 21.0, 27.0]
        );
    }

    #[test]
    fn none_stands_before_the_beginning() {
        assert_eq!(spread(&wishes(&[(1.0, 6.0), (2.0, 6.0), (30.0, 6.0)]), 0.0), [3.0, 9.0, 30.0]);
    }
}
