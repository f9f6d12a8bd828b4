//! The fifth station's parameters.

use super::*;

pub(super) const SECTIONS: &[Section] = &[
    Section { path: "tap", presence: Presence::Required, help: "The household's hot water." },
    Section {
        path: "tap.draw[]",
        presence: Presence::List(0),
        help: "Draws of a day, where neither people nor a profile are written.",
    },
    Section {
        path: "tap.heater",
        presence: Presence::Required,
        help: "What tops up after the store.",
    },
];

const PROFILES: &[&str] = &["3XS", "XXS", "XS", "S", "M", "L", "XL", "XXL"];

pub(super) const PARAMETERS: &[Parameter] = &[
    parameter(
        "tap.people",
        Form::Quantity(Kind::Number),
        "People in the house; 0 for a house that draws nothing.",
    )
    .within("0", "30")
    .absent(),
    parameter(
        "tap.profile",
        Form::Choice(PROFILES),
        "A load profile of EU regulation 812/2013.",
    )
    .absent(),
    parameter(
        "tap.weekend-profile",
        Form::Choice(PROFILES),
        "The load profile of Saturday and Sunday, where it is another.",
    )
    .absent(),
    parameter(
        "tap.first-weekday",
        Form::Choice(&[
            "monday",
            "tuesday",
            "wednesday",
            "thursday",
            "friday",
            "saturday",
            "sunday",
        ]),
        "Which day of the week 1 January is.",
    )
    .assume("monday", "a typical year has no calendar", "assumed"),
    parameter(
        "tap.draw[].days",
        Form::Choice(&["every-day", "weekdays", "weekend"]),
        "Days of the week on which it is drawn; every day unless written.",
    )
    .absent(),
    parameter("tap.draw[].time", Form::Clock, "When the draw starts, standard time."),
    parameter("tap.draw[].lasts", Form::Quantity(Kind::Time), "How long it runs.")
        .within("1 min", "10 h"),
    parameter(
        "tap.draw[].volume",
        Form::Quantity(Kind::Volume),
        "Hot water drawn, at the temperature of delivery.",
    )
    .within("0.1 l", "2000 l"),
    parameter(
        "tap.delivery",
        Form::Quantity(Kind::Temperature),
        "Temperature at which hot water is wanted.",
    )
    .within("25 C", "80 C")
    .assume("52 C", "SAP 10.2, delivery at the store", "seen"),
    parameter(
        "tap.mixing-valve",
        Form::Choice(&["none", "low-pressure", "high-pressure"]),
        "The valve that mixes cold into hot water before the taps, and its pressure class; only worries ask.",
    )
    .absent(),
    parameter(
        "tap.mixed-to",
        Form::Quantity(Kind::Temperature),
        "Temperature that valve is set to; only worries ask.",
    )
    .within("30 C", "60 C")
    .absent(),
    parameter(
        "tap.holidays",
        Form::DaySpans,
        "Days without any draw, month and day from and to, both counted.",
    )
    .absent(),
    parameter(
        "tap.hardness",
        Form::Choice(&["soft", "moderate", "hard", "very-hard"]),
        "How hard the water is: up to 100 mg/l of calcium carbonate, up to 200, up to 300, or more.",
    )
    .absent(),
    parameter(
        "tap.mains",
        Form::Choice(&["from-climate", "uk-mains", "uk-header-tank", "monthly", "sinusoid"]),
        "How cold the cold water is through the year.",
    )
    .assume("from-climate", "Burch and Christensen 2007, from the weather's own air", "seen"),
    parameter(
        "tap.mains-monthly",
        Form::Monthly(Kind::Temperature),
        "Twelve monthly means of the cold water, January first.",
    )
    .within("0 C", "40 C")
    .only("mains", &["monthly"]),
    parameter(
        "tap.mains-mean",
        Form::Quantity(Kind::Temperature),
        "Mean of the cold water over the year.",
    )
    .within("0 C", "40 C")
    .only("mains", &["sinusoid"]),
    parameter(
        "tap.mains-swing",
        Form::Quantity(Kind::Difference),
        "Half the difference between its warmest and coldest day.",
    )
    .within("0 K", "20 K")
    .only("mains", &["sinusoid"]),
    parameter(
        "tap.mains-coldest-day",
        Form::Count,
        "Its coldest day of the year, 0 for 1 January.",
    )
    .within("0", "364")
    .assume("45", "mid February in the north; write 228 in the south", "from memory")
    .only("mains", &["sinusoid"]),
    parameter(
        "tap.heater.kind",
        Form::Choice(&["cylinder", "instantaneous"]),
        "What tops up after the store.",
    ),
    parameter(
        "tap.heater.highest-inlet",
        Form::Quantity(Kind::Temperature),
        "Highest temperature of the water an instantaneous heater may be given.",
    )
    .within("10 C", "95 C")
    .absent()
    .only_ever("kind", &["instantaneous"]),
    parameter(
        "tap.heater.inlet-valve",
        Form::Choice(&["tempering", "none"]),
        "What stands before it: a valve that mixes mains in down to that, or nothing, and it stays off.",
    )
    .assume("tempering", "a mixing valve before the heater is the trade's way", "common practice")
    .only_ever("kind", &["instantaneous"]),
    parameter(
        "tap.heater.heats",
        Form::Choice(&["whole-daily", "top-only", "by-timer"]),
        "What of the cylinder reaches its temperature, and how often; only worries ask.",
    )
    .absent()
    .only("kind", &["cylinder"]),
    parameter("tap.heater.volume", Form::Quantity(Kind::Volume), "Water in the cylinder.")
        .within("5 l", "1000 l")
        .assume("117 l", "the common size of 450 by 900 mm", "common practice")
        .only("kind", &["cylinder"]),
    parameter(
        "tap.heater.loss",
        Form::Quantity(Kind::Conductance),
        "Standing loss of the cylinder.",
    )
    .within("0 W/K", "20 W/K")
    .assume("1.5 W/K", "that cylinder with its foam, some 1.5 kWh a day at 40 K", "judgement")
    .only("kind", &["cylinder"])
    .unknown(Spread {
        low: "1 W/K",
        middle: "1.5 W/K",
        high: "3 W/K",
        source: "judgement: thick foam to a loose jacket",
    }),
    parameter("tap.heater.room", Form::Quantity(Kind::Temperature), "Air around the cylinder.")
        .within("0 C", "40 C")
        .assume("20 C", "a cupboard in a heated house", "common practice")
        .only("kind", &["cylinder"]),
];
