//! Puts labels in a row: none overlaps, each as near to its anchor as the others allow.

/// The left edges of boxes with the given `(anchor, width)`, in the order given, each at least `gap` apart and all within
/// `low..high`. The sum of squared distances between centres and anchors is least. `None` when they don't fit.
pub fn spread(boxes: &[(f64, f64)], gap: f64, low: f64, high: f64) -> Option<Vec<f64>> {
    // Runs of touching boxes: (number of boxes, length of the run, sum of where its start wants to be).
    let mut runs: Vec<(usize, f64, f64)> = Vec::new();
    for &(anchor, width) in boxes {
        runs.push((1, width, anchor - width / 2.0));
        while let [.., (m, a, p), (n, b, q)] = runs[..] {
            if start((m, a, p), low, high) + a + gap <= start((n, b, q), low, high) {
                break;
            }
            let shift = count(n) * (a + gap);
            runs.truncate(runs.len() - 2);
            runs.push((m + n, a + gap + b, p + q - shift));
        }
    }
    if runs.first().is_some_and(|run| run.1 > high - low) {
        return None;
    }
    let mut lefts = Vec::with_capacity(boxes.len());
    for run in runs {
        let mut left = start(run, low, high);
        for _ in 0..run.0 {
            let width = boxes[lefts.len()].1;
            lefts.push(left);
            left += width + gap;
        }
    }
    Some(lefts)
}

fn start((n, length, wish): (usize, f64, f64), low: f64, high: f64) -> f64 {
    (wish / count(n)).min(high - length).max(low)
}

fn count(n: usize) -> f64 {
    f64::from(u32::try_from(n).unwrap_or(u32::MAX))
}

#[cfg(test)]
mod tests {
    use super::spread;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn boxes_with_room_stand_at_their_anchors() {
        assert_eq!(
            spread(&[(20.0, 10.0), (80.0, 20.0)], 4.0, 0.0, 100.0),
            Some(vec![15.0, 70.0])
        );
    }

    #[wasm_bindgen_test]
    fn boxes_that_would_touch_share_the_push() {
        assert_eq!(
            spread(&[(50.0, 20.0), (50.0, 20.0)], 4.0, 0.0, 100.0),
            Some(vec![28.0, 52.0])
        );
    }

    #[wasm_bindgen_test]
    fn the_edges_hold() {
        assert_eq!(
            spread(&[(95.0, 20.0), (99.0, 30.0)], 4.0, 0.0, 100.0),
            Some(vec![46.0, 70.0])
        );
        assert_eq!(spread(&[(1.0, 60.0), (2.0, 60.0)], 4.0, 0.0, 100.0), None);
    }

    #[wasm_bindgen_test]
    fn no_two_overlap_whatever_the_anchors() {
        // Anchors from a full-period walk over 0..101; widths that leave some room and some that leave none.
        for seed in 0_u32..101 {
            let boxes: Vec<(f64, f64)> = {
                let mut anchors: Vec<u32> =
                    (0..5).map(|i| (seed * 37 + i * i * 29) % 101).collect();
                anchors.sort_unstable();
                anchors
                    .iter()
                    .zip([12.0, 25.0, 8.0, 20.0, 15.0])
                    .map(|(&a, w)| (f64::from(a), w))
                    .collect()
            };
            let lefts = spread(&boxes, 3.0, 0.0, 100.0).expect("92 of 100 fit");
            let mut end = -3.0;
            for (left, (_, width)) in lefts.iter().zip(&boxes) {
                assert!(*left >= end + 3.0 - 1e-9, "{boxes:?} {lefts:?}");
                end = left + width;
            }
            assert!(end <= 100.0 + 1e-9);
        }
    }
}
