//! Bands.

use advice::band::{Question, Table, by_draws};
use advice::unknowns::unknowns;
use advice::{GoOn, WeatherYears};

use crate::samples::subject;

#[test]
fn look() {
    for name in ["first-panel.toml", "pair-better-back.toml"] {
        let subject = subject(name);
        let began = std::time::Instant::now();
        let base = subject.year().expect("runs");
        println!("base {:?}", began.elapsed());
        let weather = WeatherYears::of(&subject, 24, 1).expect("a place");
        let unknowns = unknowns(&subject);
        let asked = Question {
            subject: &subject,
            unknowns: &unknowns,
            weather: &weather,
            figures: &|year| vec![year.spared_kwh(), year.forcing.light.plane_kwh_m2.iter().sum()],
            progress: &|_, _| GoOn::Yes,
        };
        let began = std::time::Instant::now();
        let table = Table::of(asked, &base).expect("runs");
        println!("{} unknowns, table {:?}", unknowns.len(), began.elapsed());
        let began = std::time::Instant::now();
        let told = table.told(1);
        println!(
            "told {:?}: {:.1?}\n{:.3?}\n{:.1?} {:?}",
            began.elapsed(),
            told.bands,
            told.makers,
            told.weather_alone,
            told.narrowing
        );
        let began = std::time::Instant::now();
        let drawn = by_draws(asked, 200, 1).expect("runs");
        println!("200 draws {:?}: {drawn:.1?}", began.elapsed());
    }
}
