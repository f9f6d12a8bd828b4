//! Near shade, as a builder notes it: which days, which hours, how much light is kept.

use crate::tap::DaySpan;

/// Everything that shades the panel from nearby: trees, chimneys, the neighbour's gable.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NearShade {
    /// Each shade by itself; those that meet multiply.
    pub spells: Vec<ShadeSpell>,
}

/// One shade.
#[derive(Clone, Debug, PartialEq)]
pub struct ShadeSpell {
    /// Days on which it falls; none named means all.
    pub days: Vec<DaySpan>,
    /// Minute of the day at which it begins, standard time.
    pub from_min: u16,
    /// Minute at which it ends; not after `from_min` for hours over midnight.
    pub to_min: u16,
    /// Share of beam, and of the bright sky round the sun, that is left (0 to 1).
    pub beam_share: f64,
    /// Share of the sky's other light that is left (0 to 1).
    pub diffuse_share: f64,
}

/// What is left of the light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeptLight {
    /// Of beam.
    pub beam_share: f64,
    /// Of the sky's light.
    pub diffuse_share: f64,
}

impl NearShade {
    /// What the shades leave of the light.
    ///
    /// * `day`: of the year, 0 to 364.
    /// * `minute`: of that day, standard time, 0 to 1439.
    ///
    /// # Valid range
    /// Any; shares are taken as they stand.
    #[inline]
    pub fn kept(&self, day: usize, minute: usize) -> KeptLight {
        let mut kept = KeptLight { beam_share: 1.0, diffuse_share: 1.0 };
        for spell in self.spells.iter().filter(|spell| spell.falls(day, minute)) {
            kept.beam_share *= spell.beam_share;
            kept.diffuse_share *= spell.diffuse_share;
        }
        kept
    }
}

impl ShadeSpell {
    fn falls(&self, day: usize, minute: usize) -> bool {
        let (from, to) = (usize::from(self.from_min), usize::from(self.to_min));
        let in_hours =
            if from < to { (from..to).contains(&minute) } else { minute >= from || minute < to };
        in_hours && (self.days.is_empty() || self.days.iter().any(|span| span.holds(day)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Given a chimney on winter mornings that leaves a tenth and a bare tree all day that leaves
    /// 0.6 of the beam: alone outside the morning, multiplied within it, only the tree in summer. By
    /// hand.
    #[test]
    fn shades_multiply_where_they_meet() {
        let chimney = ShadeSpell {
            days: vec![DaySpan { first: 304, last: 58 }],
            from_min: 480,
            to_min: 600,
            beam_share: 0.1,
            diffuse_share: 0.9,
        };
        let tree = ShadeSpell {
            days: Vec::new(),
            from_min: 0,
            to_min: 0,
            beam_share: 0.6,
            diffuse_share: 0.8,
        };
        let shade = NearShade { spells: vec![chimney, tree] };
        let close = |kept: KeptLight, beam: f64, diffuse: f64| {
            assert!((kept.beam_share - beam).abs() < 1e-12, "{kept:?}");
            assert!((kept.diffuse_share - diffuse).abs() < 1e-12, "{kept:?}");
        };
        close(shade.kept(10, 480), 0.06, 0.72);
        close(shade.kept(10, 599), 0.06, 0.72);
        close(shade.kept(10, 600), 0.6, 0.8);
        close(shade.kept(180, 500), 0.6, 0.8);
        close(NearShade::default().kept(10, 480), 1.0, 1.0);
    }
}
