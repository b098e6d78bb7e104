//! `say!`: a text in the language that is spoken, from its English pattern.
//!
//! The holes are read while the program is built, so at run time a text is found by its pattern and filled.

#[allow(unreachable_pub, reason = "the same file is public in the crate that reads sources")]
mod pattern;

use pattern::{Hole, Pattern, text_of};
use proc_macro::{Delimiter, Group, Ident, Literal, Punct, Spacing, Span, TokenStream, TokenTree};

/// A text in the language that is spoken: `say!("The seat is {} mm high", height)`, with holes as those of `format!`.
///
/// The pattern is what catalogues know the text by. A translation may put the holes in another order and leave out none.
#[proc_macro]
pub fn say(input: TokenStream) -> TokenStream {
    said(input).unwrap_or_else(|why| error(&why))
}

fn said(input: TokenStream) -> Result<TokenStream, String> {
    let mut arguments = split(input).into_iter();
    let literal = arguments.next().unwrap_or_default();
    let pattern = literal_of(literal).ok_or("say! begins with a pattern in quotes")?;
    let pattern = Pattern::read(&pattern)?;
    let arguments: Vec<Argument> = arguments.filter(|a| !a.is_empty()).map(Argument::read).collect();
    let mut used = vec![false; arguments.len()];
    let values = pattern.holes.iter().map(|hole| value(hole, &arguments, &mut used));
    let values: Vec<TokenStream> = values.collect::<Result<_, _>>()?;
    match used.iter().position(|used| !used) {
        Some(place) => Err(format!("value {} of say! has no hole", place + 1)),
        None => Ok(call(&pattern.key, values)),
    }
}

/// `::crestrail_phrases::filled("key", &[&value, …])`.
fn call(key: &str, values: Vec<TokenStream>) -> TokenStream {
    let mut list = TokenStream::new();
    for value in values {
        list.extend(borrowed(value));
        list.extend([TokenTree::from(Punct::new(',', Spacing::Alone))]);
    }
    let list = TokenStream::from(TokenTree::from(Group::new(Delimiter::Bracket, list)));
    let mut given = TokenStream::from(TokenTree::from(Literal::string(key)));
    given.extend([TokenTree::from(Punct::new(',', Spacing::Alone))]);
    given.extend(borrowed(list));
    let mut all = path("::crestrail_phrases::filled");
    all.extend([TokenTree::from(Group::new(Delimiter::Parenthesis, given))]);
    all
}

fn borrowed(value: TokenStream) -> TokenStream {
    let mut all = TokenStream::from(TokenTree::from(Punct::new('&', Spacing::Alone)));
    all.extend(value);
    all
}

/// A value as its hole writes it: the expression itself, or `format_args!("{:.1}", expression)`.
fn value(hole: &Hole, arguments: &[Argument], used: &mut [bool]) -> Result<TokenStream, String> {
    let place = match hole.name.parse::<usize>() {
        Ok(place) => Some(place).filter(|place| arguments.get(*place).is_some_and(|a| a.name.is_none())),
        Err(_) => arguments.iter().position(|a| a.name.as_deref() == Some(&hole.name)),
    };
    let expression = match place {
        Some(place) => {
            used[place] = true;
            arguments[place].expression.clone()
        }
        None if hole.name.starts_with(|c: char| c.is_ascii_digit()) => {
            return Err(format!("hole {} of say! has no value", hole.name));
        }
        None => ident(&hole.name),
    };
    let grouped = TokenStream::from(TokenTree::from(Group::new(Delimiter::Parenthesis, expression)));
    if hole.spec.is_empty() {
        return Ok(grouped);
    }
    let mut given = TokenStream::from(TokenTree::from(Literal::string(&format!("{{:{}}}", hole.spec))));
    given.extend([TokenTree::from(Punct::new(',', Spacing::Alone))]);
    given.extend(grouped);
    if let Some(width) = hole.spec.strip_suffix('$') {
        let name = width.trim_start_matches(|c: char| !c.is_alphabetic());
        given.extend([TokenTree::from(Punct::new(',', Spacing::Alone))]);
        given.extend(ident(name));
        given.extend([TokenTree::from(Punct::new('=', Spacing::Alone))]);
        given.extend(ident(name));
    }
    let mut all = path("::core::format_args");
    all.extend([
        TokenTree::from(Punct::new('!', Spacing::Alone)),
        TokenTree::from(Group::new(Delimiter::Parenthesis, given)),
    ]);
    Ok(all)
}

/// A value that is handed to the macro, perhaps by a name.
struct Argument {
    name: Option<String>,
    expression: TokenStream,
}

impl Argument {
    fn read(tokens: Vec<TokenTree>) -> Self {
        if let [TokenTree::Ident(name), TokenTree::Punct(sign), rest @ ..] = tokens.as_slice()
            && sign.as_char() == '='
            && sign.spacing() == Spacing::Alone
        {
            return Self { name: Some(name.to_string()), expression: rest.iter().cloned().collect() };
        }
        Self { name: None, expression: tokens.into_iter().collect() }
    }
}

/// What stands between the commas.
fn split(input: TokenStream) -> Vec<Vec<TokenTree>> {
    let mut parts = vec![Vec::new()];
    for token in input {
        match &token {
            TokenTree::Punct(sign) if sign.as_char() == ',' => parts.push(Vec::new()),
            _ => parts.last_mut().expect("there is a first").push(token),
        }
    }
    parts
}

/// The text of a literal, which a macro may have wrapped.
fn literal_of(tokens: Vec<TokenTree>) -> Option<String> {
    match tokens.as_slice() {
        [TokenTree::Literal(literal)] => text_of(&literal.to_string()),
        [TokenTree::Group(group)] if group.delimiter() == Delimiter::None => {
            literal_of(group.stream().into_iter().collect())
        }
        _ => None,
    }
}

fn ident(name: &str) -> TokenStream {
    TokenStream::from(TokenTree::from(Ident::new(name, Span::call_site())))
}

fn path(text: &str) -> TokenStream {
    text.parse().expect("a path is tokens")
}

fn error(why: &str) -> TokenStream {
    format!("::core::compile_error!({why:?})").parse().expect("an error is tokens")
}
