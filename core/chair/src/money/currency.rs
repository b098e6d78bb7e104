//! Currencies.

/// A currency of ISO 4217.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency {
    /// The alphabetic code, such as `EUR`.
    pub code: &'static str,
    /// Decimals of its minor unit: 2 where a hundred of them make one.
    pub minor_digits: u8,
}

const fn currency(code: &'static str, minor_digits: u8) -> Currency {
    Currency { code, minor_digits }
}

impl Currency {
    /// The currency with this code.
    pub fn find(code: &str) -> Option<Self> {
        CURRENCIES.binary_search_by(|c| c.code.cmp(code)).ok().map(|i| CURRENCIES[i])
    }
}

/// The active codes of ISO 4217 that have a minor unit, funds codes included; precious metals and codes for
/// tests have none. Sorted by code. Written from memory of the
/// standard; the codes were compared with a packaged copy of its list.
pub const CURRENCIES: &[Currency] = &[
    currency("AED", 2),
    currency("AFN", 2),
    currency("ALL", 2),
    currency("AMD", 2),
    currency("AOA", 2),
    currency("ARS", 2),
    currency("AUD", 2),
    currency("AWG", 2),
    currency("AZN", 2),
    currency("BAM", 2),
    currency("BBD", 2),
    currency("BDT", 2),
    currency("BHD", 3),
    currency("BIF", 0),
    currency("BMD", 2),
    currency("BND", 2),
    currency("BOB", 2),
    currency("BOV", 2),
    currency("BRL", 2),
    currency("BSD", 2),
    currency("BTN", 2),
    currency("BWP", 2),
    currency("BYN", 2),
    currency("BZD", 2),
    currency("CAD", 2),
    currency("CDF", 2),
    currency("CHE", 2),
    currency("CHF", 2),
    currency("CHW", 2),
    currency("CLF", 4),
    currency("CLP", 0),
    currency("CNY", 2),
    currency("COP", 2),
    currency("COU", 2),
    currency("CRC", 2),
    currency("CUP", 2),
    currency("CVE", 2),
    currency("CZK", 2),
    currency("DJF", 0),
    currency("DKK", 2),
    currency("DOP", 2),
    currency("DZD", 2),
    currency("EGP", 2),
    currency("ERN", 2),
    currency("ETB", 2),
    currency("EUR", 2),
    currency("FJD", 2),
    currency("FKP", 2),
    currency("GBP", 2),
    currency("GEL", 2),
    currency("GHS", 2),
    currency("GIP", 2),
    currency("GMD", 2),
    currency("GNF", 0),
    currency("GTQ", 2),
    currency("GYD", 2),
    currency("HKD", 2),
    currency("HNL", 2),
    currency("HTG", 2),
    currency("HUF", 2),
    currency("IDR", 2),
    currency("ILS", 2),
    currency("INR", 2),
    currency("IQD", 3),
    currency("IRR", 2),
    currency("ISK", 0),
    currency("JMD", 2),
    currency("JOD", 3),
    currency("JPY", 0),
    currency("KES", 2),
    currency("KGS", 2),
    currency("KHR", 2),
    currency("KMF", 0),
    currency("KPW", 2),
    currency("KRW", 0),
    currency("KWD", 3),
    currency("KYD", 2),
    currency("KZT", 2),
    currency("LAK", 2),
    currency("LBP", 2),
    currency("LKR", 2),
    currency("LRD", 2),
    currency("LSL", 2),
    currency("LYD", 3),
    currency("MAD", 2),
    currency("MDL", 2),
    currency("MGA", 2),
    currency("MKD", 2),
    currency("MMK", 2),
    currency("MNT", 2),
    currency("MOP", 2),
    currency("MRU", 2),
    currency("MUR", 2),
    currency("MVR", 2),
    currency("MWK", 2),
    currency("MXN", 2),
    currency("MXV", 2),
    currency("MYR", 2),
    currency("MZN", 2),
    currency("NAD", 2),
    currency("NGN", 2),
    currency("NIO", 2),
    currency("NOK", 2),
    currency("NPR", 2),
    currency("NZD", 2),
    currency("OMR", 3),
    currency("PAB", 2),
    currency("PEN", 2),
    currency("PGK", 2),
    currency("PHP", 2),
    currency("PKR", 2),
    currency("PLN", 2),
    currency("PYG", 0),
    currency("QAR", 2),
    currency("RON", 2),
    currency("RSD", 2),
    currency("RUB", 2),
    currency("RWF", 0),
    currency("SAR", 2),
    currency("SBD", 2),
    currency("SCR", 2),
    currency("SDG", 2),
    currency("SEK", 2),
    currency("SGD", 2),
    currency("SHP", 2),
    currency("SLE", 2),
    currency("SOS", 2),
    currency("SRD", 2),
    currency("SSP", 2),
    currency("STN", 2),
    currency("SVC", 2),
    currency("SYP", 2),
    currency("SZL", 2),
    currency("THB", 2),
    currency("TJS", 2),
    currency("TMT", 2),
    currency("TND", 3),
    currency("TOP", 2),
    currency("TRY", 2),
    currency("TTD", 2),
    currency("TWD", 2),
    currency("TZS", 2),
    currency("UAH", 2),
    currency("UGX", 0),
    currency("USD", 2),
    currency("USN", 2),
    currency("UYI", 0),
    currency("UYU", 2),
    currency("UYW", 4),
    currency("UZS", 2),
    currency("VED", 2),
    currency("VES", 2),
    currency("VND", 0),
    currency("VUV", 0),
    currency("WST", 2),
    currency("XAD", 2),
    currency("XAF", 0),
    currency("XCD", 2),
    currency("XCG", 2),
    currency("XOF", 0),
    currency("XPF", 0),
    currency("YER", 2),
    currency("ZAR", 2),
    currency("ZMW", 2),
    currency("ZWG", 2),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_sorted_and_well_formed() {
        assert!(CURRENCIES.windows(2).all(|w| w[0].code < w[1].code));
        assert!(
            CURRENCIES.iter().all(|c| c.code.len() == 3 && c.code.bytes().all(|b| b.is_ascii_uppercase()))
        );
        assert!(CURRENCIES.iter().all(|c| c.minor_digits <= 4));
    }

    #[test]
    fn finds_by_code() {
        let digits = |code| Currency::find(code).map(|c| c.minor_digits);
        assert_eq!(digits("EUR"), Some(2));
        assert_eq!(digits("JPY"), Some(0));
        assert_eq!(digits("KWD"), Some(3));
        assert_eq!(digits("CLF"), Some(4));
        assert_eq!(digits("eur"), None);
        assert_eq!(digits("XAU"), None);
    }
}
