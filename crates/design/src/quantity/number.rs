//! The number at the front of a quantity.

use super::QuantityFault;

/// Splits a text into its leading number and what follows it.
///
/// Understands `-5`, `0.7`, `1,5`, `1e-6`, `1/2`, `1 1/2` and `1-1/2`.
pub(super) fn leading(text: &str) -> Result<(f64, &str), QuantityFault> {
    let text = text.trim_start();
    let (sign, unsigned) = match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text.strip_prefix('+').unwrap_or(text).trim_start()),
    };
    let (whole, rest) = plain(unsigned)?;
    if let Some((bottom, rest)) = after_slash(rest) {
        return divided(whole, bottom).map(|value| (sign * value, rest));
    }
    let joined = rest.strip_prefix('-').or_else(|| rest.strip_prefix(' '));
    if let Some((top, tail)) = joined.and_then(|tail| plain(tail).ok())
        && let Some((bottom, rest)) = after_slash(tail)
    {
        return divided(top, bottom).map(|value| (sign * (whole + value), rest));
    }
    Ok((sign * whole, rest))
}

fn divided(top: f64, bottom: f64) -> Result<f64, QuantityFault> {
    if bottom == 0.0 { Err(QuantityFault::NotFinite) } else { Ok(top / bottom) }
}

/// The whole number after a slash, as in `1/2`.
fn after_slash(rest: &str) -> Option<(f64, &str)> {
    let tail = rest.strip_prefix('/')?;
    let digits = tail.bytes().take_while(u8::is_ascii_digit).count();
    let bottom = tail[..digits].parse().ok()?;
    Some((bottom, &tail[digits..]))
}

/// A number without sign or fraction.
fn plain(text: &str) -> Result<(f64, &str), QuantityFault> {
    let bytes = text.as_bytes();
    let digits = |from: usize| bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let whole = digits(0);
    let mut end = whole;
    let mut comma = false;
    if let Some(&mark) = bytes.get(end)
        && (mark == b'.' || mark == b',')
    {
        let after = digits(end + 1);
        if after > 0 {
            comma = mark == b',';
            if comma && after == 3 && (1..=3).contains(&whole) && &text[..whole] != "0" {
                return Err(QuantityFault::AmbiguousComma {
                    thousands: format!("{}{}", &text[..whole], &text[end + 1..end + 4]),
                    decimals: format!("{}.{}", &text[..whole], &text[end + 1..end + 4]),
                });
            }
            end += 1 + after;
        } else if whole > 0 && mark == b'.' {
            end += 1;
        }
    }
    if digits(0) == 0 && end == 0 {
        return Err(QuantityFault::NoNumber);
    }
    if let Some(b'e' | b'E') = bytes.get(end) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let power = bytes.get(end + 1 + sign..).map_or(0, |_| digits(end + 1 + sign));
        if power > 0 {
            end += 1 + sign + power;
        }
    }
    let written = if comma { text[..end].replace(',', ".") } else { text[..end].to_owned() };
    let value: f64 = written.parse().map_err(|_| QuantityFault::NoNumber)?;
    if value.is_finite() { Ok((value, &text[end..])) } else { Err(QuantityFault::NotFinite) }
}
