//! Where the tubes lie on the sheet: the drawing that the plate picture is reckoned on.

use super::{Built, Fins, Passage, Sheet, TubePattern};

/// A place on the sheet, from its lower left corner as the sun sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// To the right, along the eaves \[m\].
    pub across_m: f64,
    /// Up the slope \[m\].
    pub up_m: f64,
}

impl Place {
    /// How far another place is \[m\].
    pub fn to_m(&self, other: &Place) -> f64 {
        (other.across_m - self.across_m).hypot(other.up_m - self.up_m)
    }

    /// The place some share of the way to another one: 0 here, 1 there.
    pub fn towards(&self, other: &Place, share: f64) -> Place {
        Place {
            across_m: self.across_m + share * (other.across_m - self.across_m),
            up_m: self.up_m + share * (other.up_m - self.up_m),
        }
    }
}

/// One straight piece of tube on the sheet, in the direction of the flow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// Where the fluid enters it.
    pub from: Place,
    /// Where the fluid leaves it.
    pub to: Place,
}

impl Leg {
    /// Its length \[m\].
    pub fn length_m(&self) -> f64 {
        self.from.to_m(&self.to)
    }
}

/// One tube on the sheet: legs in the order of the flow.
///
/// Where a leg begins elsewhere than the one before it ended, a bend joins them that does not touch
/// the sheet; positions along the tube do not count it.
#[derive(Clone, Debug, PartialEq)]
pub struct Pipe {
    /// Its legs, one or more.
    pub legs: Vec<Leg>,
}

impl Pipe {
    /// A tube through places, each joined to the next by a straight leg.
    pub fn through(points: &[Place]) -> Pipe {
        let legs = points.windows(2).map(|ends| Leg { from: ends[0], to: ends[1] }).collect();
        Pipe { legs }
    }

    /// Length on the sheet \[m\].
    pub fn length_m(&self) -> f64 {
        self.legs.iter().map(Leg::length_m).sum()
    }
}

/// All tubes of a panel as they lie on the sheet, and where the sheet is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Route {
    /// Tubes side by side, that share the flow; the first next to the inlet.
    pub pipes: Vec<Pipe>,
    /// Upright cuts through the sheet, by which strips part \[m\] from the left rim; level ones do
    /// not occur.
    pub cuts_m: Vec<f64>,
}

/// A stretch of tube whose bond is other than the rest's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Which tube: a harp's riser counted from 0 next to the inlet; 0 where there is one tube.
    pub tube: usize,
    /// Where it begins, along that tube from its inlet \[m\].
    pub from_m: f64,
    /// Where it ends \[m\].
    pub to_m: f64,
    /// Conductance from sheet to tube wall per metre \[W/(m K)\]; 0 for a seam that was missed.
    pub bond_w_m_k: f64,
}

/// How the tubes of a panel lie on its sheet; `None` for a hollow sheet.
///
/// A harp's risers rise from the lower header, the first at the left; a serpentine begins at the
/// lower left. Legs lie along that side of the sheet which their length fits best, in the middle of
/// the other. Bends of a serpentine stand off the sheet, as in the fin-and-tube chain. Strips part
/// halfway between their tubes.
///
/// # Source
/// Geometry.
///
/// # Checked
/// By hand for a harp, a serpentine and strips.
pub fn route(panel: &Built) -> Option<Route> {
    let tubes = match &panel.passage {
        Passage::Hollow(_) => return None,
        Passage::Tubes(tubes) => tubes,
    };
    let sheet = &panel.sheet;
    let (count, length_m, to_and_fro) = match &tubes.pattern {
        TubePattern::Route { points } => {
            return Some(Route { pipes: vec![Pipe::through(points)], cuts_m: Vec::new() });
        }
        TubePattern::Harp { risers, riser_length_m, .. } => (*risers, *riser_length_m, false),
        TubePattern::Serpentine { legs, leg_length_m } => (*legs, *leg_length_m, true),
    };
    let spacing_m = match tubes.fins {
        Fins::OneSheet => tubes.spacing_m,
        Fins::Strips { width_m } => width_m,
    };
    let across_m = f64::from(count.saturating_sub(1)) * spacing_m;
    let strips = matches!(tubes.fins, Fins::Strips { .. });
    let upright = strips || lies_upright(sheet, length_m, across_m);
    let (along_m, beside_m) =
        if upright { (sheet.length_m, sheet.width_m) } else { (sheet.width_m, sheet.length_m) };
    let (start_m, first_m) = (0.5 * (along_m - length_m), 0.5 * (beside_m - across_m));
    let place = |along_m: f64, beside_m: f64| {
        if upright {
            Place { across_m: beside_m, up_m: along_m }
        } else {
            Place { across_m: along_m, up_m: beside_m }
        }
    };
    let legs = (0..count).map(|at| {
        let beside_m = first_m + f64::from(at) * spacing_m;
        let (near, far) = (place(start_m, beside_m), place(start_m + length_m, beside_m));
        let back = to_and_fro && at % 2 == 1;
        if back { Leg { from: far, to: near } } else { Leg { from: near, to: far } }
    });
    let pipes = if to_and_fro {
        vec![Pipe { legs: legs.collect() }]
    } else {
        legs.map(|leg| Pipe { legs: vec![leg] }).collect()
    };
    let cuts_m = if strips {
        (1..count).map(|at| first_m + (f64::from(at) - 0.5) * spacing_m).collect()
    } else {
        Vec::new()
    };
    Some(Route { pipes, cuts_m })
}

/// Whether legs lie up the slope: as their length fits the sheet better, and so where both do.
fn lies_upright(sheet: &Sheet, length_m: f64, across_m: f64) -> bool {
    let fits =
        |along_m: f64, beside_m: f64| length_m <= along_m + 1e-9 && across_m <= beside_m + 1e-9;
    match (fits(sheet.length_m, sheet.width_m), fits(sheet.width_m, sheet.length_m)) {
        (true, true) => {
            (sheet.length_m - length_m).abs() <= (sheet.width_m - length_m).abs() + 1e-9
        }
        (upright, _) => upright,
    }
}

/// Where a tube through places leaves the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leaving {
    /// Which leg, counted from 0.
    pub leg: usize,
    /// Where on the sheet's rim; the first place itself where the tube begins beside the sheet.
    pub place: Place,
}

/// The first leg of a tube through places whose middle line leaves a sheet; `None` where all of it
/// lies on the sheet.
///
/// # Source
/// Geometry: a sheet has no dents, so a leg with both ends on it lies on it.
///
/// # Checked
/// By hand, to every side.
pub fn leaving(points: &[Place], sheet: &Sheet) -> Option<Leaving> {
    let beyond = |place: &Place| {
        let ranges = [(place.across_m, sheet.width_m), (place.up_m, sheet.length_m)];
        ranges.iter().any(|&(at_m, side_m)| !(-1e-9..=side_m + 1e-9).contains(&at_m))
    };
    if let Some(first) = points.first().filter(|first| beyond(first)) {
        return Some(Leaving { leg: 0, place: *first });
    }
    let leg = points.windows(2).position(|ends| beyond(&ends[1]))?;
    let (from, to) = (points[leg], points[leg + 1]);
    // The nearest of the rims on the way.
    let reach = |from_m: f64, to_m: f64, side_m: f64| {
        if to_m < 0.0 {
            from_m / (from_m - to_m)
        } else if to_m > side_m {
            (side_m - from_m) / (to_m - from_m)
        } else {
            1.0
        }
    };
    let share = reach(from.across_m, to.across_m, sheet.width_m).min(reach(
        from.up_m,
        to.up_m,
        sheet.length_m,
    ));
    Some(Leaving { leg, place: from.towards(&to, share) })
}

/// Where two legs of a tube meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// The earlier leg, counted from 0.
    pub earlier: usize,
    /// The later leg.
    pub later: usize,
    /// Where they meet.
    pub place: Place,
}

/// The first place at which a tube through places meets itself; `None` where it never does.
///
/// Legs that follow each other share a place and may; unless the later one runs back along the
/// earlier.
///
/// # Source
/// Geometry of two straight lines.
///
/// # Checked
/// By hand: a loop, a touch, a leg back along itself.
pub fn crossing(points: &[Place]) -> Option<Crossing> {
    let legs = Pipe::through(points).legs;
    for (later, leg) in legs.iter().enumerate() {
        for (earlier, other) in legs.iter().enumerate().take(later) {
            let met = if earlier + 1 == later { runs_back(other, leg) } else { meet(other, leg) };
            if let Some(place) = met {
                return Some(Crossing { earlier, later, place });
            }
        }
    }
    None
}

/// Twice the area between three places, positive where they turn left \[m2\].
fn turn_m2(from: &Place, to: &Place, then: &Place) -> f64 {
    (to.across_m - from.across_m) * (then.up_m - from.up_m)
        - (to.up_m - from.up_m) * (then.across_m - from.across_m)
}

/// Whether a leg goes back along the one before it, and where it turns.
fn runs_back(before: &Leg, after: &Leg) -> Option<Place> {
    let forward = (before.to.across_m - before.from.across_m)
        * (after.to.across_m - after.from.across_m)
        + (before.to.up_m - before.from.up_m) * (after.to.up_m - after.from.up_m);
    let aside_m2 = turn_m2(&before.from, &before.to, &after.to).abs();
    (forward < 0.0 && aside_m2 <= 1e-9 * before.length_m()).then_some(before.to)
}

/// Where two legs meet.
fn meet(one: &Leg, other: &Leg) -> Option<Place> {
    let sides = [
        turn_m2(&one.from, &one.to, &other.from),
        turn_m2(&one.from, &one.to, &other.to),
        turn_m2(&other.from, &other.to, &one.from),
        turn_m2(&other.from, &other.to, &one.to),
    ];
    if sides[0] * sides[1] < 0.0 && sides[2] * sides[3] < 0.0 {
        return Some(one.from.towards(&one.to, sides[2] / (sides[2] - sides[3])));
    }
    // An end of one upon the other; so do legs along one line meet.
    let upon = |end: &Place, leg: &Leg| {
        (leg.from.to_m(end) + end.to_m(&leg.to) - leg.length_m() <= 1e-9).then_some(*end)
    };
    upon(&other.from, one)
        .or_else(|| upon(&other.to, one))
        .or_else(|| upon(&one.from, other))
        .or_else(|| upon(&one.to, other))
}

#[cfg(test)]
mod tests {
    use super::super::samples::{harp, serpentine, with_pattern};
    use super::*;

    fn at(across_m: f64, up_m: f64) -> Place {
        Place { across_m, up_m }
    }

    /// Given: six risers every 150 mm on a sheet of 0.9 by 1.8 m. Expected: the first 75 mm from
    /// the left rim, from below to above, each a pipe of its own (by hand).
    #[test]
    fn risers_lie_in_the_middle_of_the_sheet() {
        let route = route(&harp()).unwrap();
        assert_eq!(route.pipes.len(), 6);
        let first = route.pipes[0].legs[0];
        assert!(first.from.to_m(&at(0.075, 0.0)) < 1e-12, "{first:?}");
        assert!(first.to.to_m(&at(0.075, 1.8)) < 1e-12, "{first:?}");
        let last = route.pipes[5].legs[0];
        assert!(last.from.to_m(&at(0.825, 0.0)) < 1e-12, "{last:?}");
    }

    /// Given: the same tubes to and fro. Expected: one pipe of 6 x 1.8 m whose second leg runs
    /// down (by hand). Given: eleven legs of 0.8 m every 160 mm, which fit across the sheet only.
    /// Expected: they lie across it, the first 100 mm above the lower rim (by hand).
    #[test]
    fn a_serpentine_is_one_pipe() {
        let up = route(&serpentine()).unwrap();
        assert_eq!(up.pipes.len(), 1);
        assert!((up.pipes[0].length_m() - 10.8).abs() < 1e-12);
        assert!(up.pipes[0].legs[1].from.to_m(&at(0.225, 1.8)) < 1e-12);
        let mut panel = with_pattern(TubePattern::Serpentine { legs: 11, leg_length_m: 0.8 });
        if let Passage::Tubes(tubes) = &mut panel.passage {
            tubes.spacing_m = 0.16;
        }
        let first = route(&panel).unwrap().pipes[0].legs[0];
        assert!(first.from.to_m(&at(0.05, 0.1)) < 1e-12, "{first:?}");
        assert!(first.to.to_m(&at(0.85, 0.1)) < 1e-12, "{first:?}");
    }

    /// Given: six strips of 150 mm. Expected: five cuts, the first at 150 mm (by hand).
    #[test]
    fn strips_are_cut_between_tubes() {
        let mut panel = harp();
        if let Passage::Tubes(tubes) = &mut panel.passage {
            tubes.fins = Fins::Strips { width_m: 0.15 };
        }
        let cuts_m = route(&panel).unwrap().cuts_m;
        assert_eq!(cuts_m.len(), 5);
        assert!((cuts_m[0] - 0.15).abs() < 1e-12);
    }

    /// Given: tubes that leave a sheet of 0.9 by 1.8 m to each side. Expected: the leg and the
    /// place on the rim (by hand).
    #[test]
    fn says_where_the_tube_leaves() {
        let sheet = harp().sheet;
        let inside = [at(0.1, 0.1), at(0.9, 0.1), at(0.0, 1.8)];
        assert_eq!(leaving(&inside, &sheet), None);
        for (to, rim) in [
            (at(1.0, 0.5), at(0.9, 0.5)),
            (at(-0.4, 0.5), at(0.0, 0.5)),
            (at(0.4, 2.3), at(0.4, 1.8)),
            (at(0.4, -0.5), at(0.4, 0.0)),
        ] {
            let found = leaving(&[at(0.1, 0.2), at(0.4, 0.5), to], &sheet).unwrap();
            assert_eq!(found.leg, 1);
            assert!(found.place.to_m(&rim) < 1e-12, "{found:?}");
        }
        let beside = leaving(&[at(-0.1, 0.2), at(0.4, 0.5)], &sheet).unwrap();
        assert_eq!(beside, Leaving { leg: 0, place: at(-0.1, 0.2) });
    }

    /// Given: a loop, a tube that ends on itself, one that runs back, and a spiral that does
    /// neither. Expected: the place of each meeting (by hand), and none.
    #[test]
    fn says_where_the_tube_meets_itself() {
        let loop_back = [at(0.1, 0.5), at(0.7, 0.5), at(0.7, 0.9), at(0.4, 0.9), at(0.4, 0.1)];
        let found = crossing(&loop_back).unwrap();
        assert_eq!((found.earlier, found.later), (0, 3));
        assert!(found.place.to_m(&at(0.4, 0.5)) < 1e-12, "{found:?}");
        let touch = [at(0.1, 0.5), at(0.7, 0.5), at(0.7, 0.9), at(0.4, 0.5)];
        assert!(crossing(&touch).unwrap().place.to_m(&at(0.4, 0.5)) < 1e-12);
        let back = [at(0.1, 0.5), at(0.7, 0.5), at(0.3, 0.5)];
        assert!(crossing(&back).unwrap().place.to_m(&at(0.7, 0.5)) < 1e-12);
        let spiral = [at(0.1, 0.1), at(0.8, 0.1), at(0.8, 0.8), at(0.2, 0.8), at(0.2, 0.2)];
        assert_eq!(crossing(&spiral), None);
    }
}
