//! The command line.

use std::path::PathBuf;

/// How the program is called; printed with every complaint about its arguments.
pub(crate) const USAGE: &str = "\
usage: cargo run                                        build, pack into dist/ and serve
       cargo run -- serve [--no-build] [--port N] [--out DIR]
                                                        the same; --no-build serves what is there
       cargo run -- pack [--out DIR]                    build and pack, serve nothing
       cargo run -- publish --showroom FILE --shop FILE --out DIR
                                                        write the Showroom alone, for your web site
       cargo run -- weigh                               print what the bytes of the core are made of
       cargo run -- node DIR                            write the core for Node.js, for tests
       cargo run -- help                                print this";

/// What the program is asked to do.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Command {
    /// Write the page to a folder (`dist/` unless told).
    Pack { out: Option<PathBuf> },
    /// Write the page (unless `build` is false), then serve it on a port of the loopback address.
    Serve { out: Option<PathBuf>, build: bool, port: Option<u16> },
    /// Write the Showroom of a `showroom.json` and a `shop.json` to a folder.
    Publish { showroom: PathBuf, shop: PathBuf, out: PathBuf },
    /// Print what the bytes of the first view's core are made of.
    Weigh,
    /// Write the core with bindings for Node.js.
    Node { out: PathBuf },
    /// Print the usage.
    Help,
}

/// Reads the arguments that follow the program's name; the error is one plain sentence.
pub(crate) fn parse(args: impl IntoIterator<Item = String>) -> Result<Command, String> {
    let mut args = args.into_iter().peekable();
    let verb = match args.peek() {
        Some(word) if !word.starts_with('-') => args.next().unwrap_or_default(),
        Some(word) if word == "--help" || word == "-h" => return Ok(Command::Help),
        _ => "serve".to_owned(),
    };
    match verb.as_str() {
        "serve" => serve(args),
        "pack" => pack(args),
        "publish" => publish(args),
        "weigh" => match args.next() {
            None => Ok(Command::Weigh),
            Some(other) => Err(format!("`weigh` does not know `{other}`")),
        },
        "node" => node(args),
        "help" => Ok(Command::Help),
        other => Err(format!("there is no command `{other}`")),
    }
}

fn serve(mut args: impl Iterator<Item = String>) -> Result<Command, String> {
    let (mut out, mut build, mut port) = (None, true, None);
    while let Some(arg) = args.next() {
        match arg.as_str() {
            "--no-build" => build = false,
            "--out" => out = Some(PathBuf::from(value(&arg, args.next())?)),
            "--port" => port = Some(port_number(&value(&arg, args.next())?)?),
            other => return Err(format!("`serve` does not know `{other}`")),
        }
    }
    Ok(Command::Serve { out, build, port })
}

fn pack(mut args: impl Iterator<Item = String>) -> Result<Command, String> {
    let mut out = None;
    while let Some(arg) = args.next() {
        match arg.as_str() {
            "--out" => out = Some(PathBuf::from(value(&arg, args.next())?)),
            other => return Err(format!("`pack` does not know `{other}`")),
        }
    }
    Ok(Command::Pack { out })
}

fn publish(mut args: impl Iterator<Item = String>) -> Result<Command, String> {
    let [mut showroom, mut shop, mut out] = [const { None }; 3];
    while let Some(arg) = args.next() {
        let place = match arg.as_str() {
            "--showroom" => &mut showroom,
            "--shop" => &mut shop,
            "--out" => &mut out,
            other => return Err(format!("`publish` does not know `{other}`")),
        };
        *place = Some(PathBuf::from(value(&arg, args.next())?));
    }
    let needed =
        |given: Option<PathBuf>, name: &str| given.ok_or_else(|| format!("`publish` needs `{name}`"));
    Ok(Command::Publish {
        showroom: needed(showroom, "--showroom")?,
        shop: needed(shop, "--shop")?,
        out: needed(out, "--out")?,
    })
}

fn node(mut args: impl Iterator<Item = String>) -> Result<Command, String> {
    match (args.next(), args.next()) {
        (Some(dir), None) if !dir.starts_with('-') => Ok(Command::Node { out: PathBuf::from(dir) }),
        _ => Err("`node` takes one folder".to_owned()),
    }
}

fn value(option: &str, next: Option<String>) -> Result<String, String> {
    next.filter(|v| !v.is_empty() && !v.starts_with("--")).ok_or(format!("`{option}` needs a value"))
}

fn port_number(text: &str) -> Result<u16, String> {
    text.parse()
        .map_err(|_| format!("`{text}` is not a port number; ports go from 0 (any free one) to 65535"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: &str) -> Result<Command, String> {
        parse(line.split_whitespace().map(str::to_owned))
    }

    #[test]
    fn nothing_means_build_pack_and_serve() {
        let wanted = Command::Serve { out: None, build: true, port: None };
        assert_eq!(read(""), Ok(wanted));
    }

    #[test]
    fn options_are_read_in_any_order() {
        let wanted = Command::Serve { out: Some("x".into()), build: false, port: Some(9000) };
        assert_eq!(read("serve --port 9000 --no-build --out x"), Ok(wanted));
        let bare = Command::Serve { out: None, build: true, port: Some(0) };
        assert_eq!(read("--port 0"), Ok(bare));
        assert_eq!(read("pack --out y"), Ok(Command::Pack { out: Some("y".into()) }));
        let published = Command::Publish { showroom: "s".into(), shop: "p".into(), out: "o".into() };
        assert_eq!(read("publish --shop p --out o --showroom s"), Ok(published));
        assert_eq!(read("weigh"), Ok(Command::Weigh));
        assert_eq!(read("node z"), Ok(Command::Node { out: "z".into() }));
    }

    #[test]
    fn what_is_not_known_is_named() {
        for (line, named) in [
            ("bake", "`bake`"),
            ("pack --port 1", "`--port`"),
            ("pack extra", "`extra`"),
            ("weigh extra", "`extra`"),
            ("serve --port", "`--port` needs a value"),
            ("serve --port --no-build", "`--port` needs a value"),
            ("serve --port 65536", "`65536` is not a port"),
            ("serve --port -1", "`-1` is not a port"),
            ("--prot 3", "`--prot`"),
            ("publish --showroom s --out o", "`publish` needs `--shop`"),
            ("publish --showroom --shop p", "`--showroom` needs a value"),
            ("publish --port 1", "`--port`"),
            ("node", "one folder"),
            ("node a b", "one folder"),
        ] {
            let complaint = read(line).expect_err(line);
            assert!(complaint.contains(named), "{line}: {complaint}");
        }
    }

    #[test]
    fn help_is_asked_for_in_three_ways() {
        for line in ["help", "--help", "-h"] {
            assert_eq!(read(line), Ok(Command::Help));
        }
    }
}
