//! Parameters that several stations share: layers of insulation, and tubes.

/// The parameters of one insulating layer, in the table at the path.
macro_rules! layer {
    ($at:literal) => {
        [
            parameter(
                concat!($at, ".material"),
                Form::Material(Group::Insulation),
                "What the layer is made of.",
            ),
            parameter(
                concat!($at, ".thickness"),
                Form::Quantity(Kind::Length),
                "Thickness of the layer.",
            )
            .within("0.5 mm", "500 mm"),
            parameter(
                concat!($at, ".conductivity"),
                Form::Quantity(Kind::Conductivity),
                "Conductivity at 10 C mean temperature.",
            )
            .within("0.005 W/m K", "500 W/m K")
            .of("material", Field::Conductivity),
            parameter(
                concat!($at, ".conductivity-growth"),
                Form::Quantity(Kind::Growth),
                "Growth of the conductivity with mean temperature.",
            )
            .within("-0.01 1/K", "0.02 1/K")
            .of("material", Field::ConductivityGrowth),
            parameter(
                concat!($at, ".density"),
                Form::Quantity(Kind::Density),
                "Density of the layer.",
            )
            .within("1 kg/m3", "12000 kg/m3")
            .of("material", Field::Density),
            parameter(
                concat!($at, ".heat-capacity"),
                Form::Quantity(Kind::SpecificHeat),
                "Specific heat of the layer.",
            )
            .within("100 J/kg K", "5000 J/kg K")
            .of("material", Field::HeatCapacity),
        ]
    };
}

/// The parameters of one tube, in the table at the path.
macro_rules! tube {
    ($at:literal) => {
        [
            parameter(
                concat!($at, ".size"),
                Form::TubeSize,
                "Outside diameter and wall in millimetres, 15 x 0.7, or a hose or pipe by its name, half-inch-hose.",
            )
            .absent(),
            parameter(
                concat!($at, ".outside"),
                Form::Quantity(Kind::Length),
                "Outside diameter of the tube.",
            )
            .within("3 mm", "120 mm")
            .sized("size", SizePart::Outside),
            parameter(
                concat!($at, ".wall"),
                Form::Quantity(Kind::Length),
                "Thickness of the tube's wall.",
            )
            .within("0.2 mm", "15 mm")
            .sized("size", SizePart::Wall),
            parameter(
                concat!($at, ".material"),
                Form::Material(Group::Tube),
                "What the tube is made of.",
            )
            .sold(SoldPart::Material, "copper", "the usual tube of the trade", "common practice"),
            parameter(
                concat!($at, ".conductivity"),
                Form::Quantity(Kind::Conductivity),
                "Conductivity of the tube's wall.",
            )
            .within("0.05 W/m K", "500 W/m K")
            .of("material", Field::Conductivity),
            parameter(
                concat!($at, ".density"),
                Form::Quantity(Kind::Density),
                "Density of the tube's wall.",
            )
            .within("500 kg/m3", "12000 kg/m3")
            .of("material", Field::Density),
            parameter(
                concat!($at, ".heat-capacity"),
                Form::Quantity(Kind::SpecificHeat),
                "Specific heat of the tube's wall.",
            )
            .within("100 J/kg K", "5000 J/kg K")
            .of("material", Field::HeatCapacity),
            parameter(
                concat!($at, ".roughness"),
                Form::Quantity(Kind::Length),
                "Height of the inner wall's unevenness.",
            )
            .within("0 mm", "1 mm")
            .sold(SoldPart::Roughness, "0.0015 mm", "drawn tubing, Moody 1944", "from memory"),
        ]
    };
}

/// The parameters of a pipe's lagging, in the table at the path.
macro_rules! lagging {
    ($at:literal) => {
        [
            parameter(
                concat!($at, ".lagging"),
                Form::Quantity(Kind::Length),
                "Thickness of the lagging; 0 mm for bare pipe.",
            )
            .within("0 mm", "150 mm"),
            parameter(
                concat!($at, ".lagging-material"),
                Form::Material(Group::Insulation),
                "What the lagging is made of.",
            )
            .assume(
                "rubber-lagging",
                "stands the hot pipe; polyethylene does not",
                "common practice",
            ),
            parameter(
                concat!($at, ".lagging-conductivity"),
                Form::Quantity(Kind::Conductivity),
                "Conductivity of the lagging.",
            )
            .within("0.005 W/m K", "1 W/m K")
            .of("lagging-material", Field::Conductivity),
        ]
    };
}

/// Joins arrays of parameters into one.
macro_rules! joined {
    ($($part:expr),+ $(,)?) => {{
        const PARTS: &[&[Parameter]] = &[$(&$part),+];
        const LENGTH: usize = {
            let mut length = 0;
            let mut at = 0;
            while at < PARTS.len() {
                length += PARTS[at].len();
                at += 1;
            }
            length
        };
        const ALL: [Parameter; LENGTH] = {
            let mut all = [PARTS[0][0]; LENGTH];
            let (mut to, mut part) = (0, 0);
            while part < PARTS.len() {
                let mut from = 0;
                while from < PARTS[part].len() {
                    all[to] = PARTS[part][from];
                    to += 1;
                    from += 1;
                }
                part += 1;
            }
            all
        };
        &ALL
    }};
}

pub(super) use {joined, lagging, layer, tube};
