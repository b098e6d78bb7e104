//! What holds the pages together: catalogue, page tree, resources, labels, attached files.

use super::content::{Opacities, Pen};
use super::ids::Ids;
use super::typeface::{Embedded, Typefaces};
use super::{Attachment, Document, Page, Unwritten, Written, bookmarks};
use crate::{Faces, Sheet, Unit};
use crestrail_sorting::Order as _;
use pdf_writer::types::{AssociationKind, PageMode};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str, Stream, TextStr};

/// The largest side that every reader must show, in points (ISO 32000-1, table C.1).
const LARGEST: f32 = 14400.0;

/// How hard streams are squeezed, of 0 to 10: beyond this little is gained.
const SQUEEZE: u8 = 6;

/// Printer's points of 1/72 inch (ISO 32000-1, 8.3.2.3) to a unit of the sheet; a CSS pixel is 1/96 inch.
fn points(unit: Unit) -> f64 {
    match unit {
        Unit::Pixel => 72.0 / 96.0,
        Unit::Millimetre => 72.0 / 25.4,
    }
}

pub(super) fn write(document: &Document, faces: &Faces) -> Result<Written, Unwritten> {
    if document.pages.is_empty() {
        return Err(Unwritten::NoPage);
    }
    let (mut pdf, mut ids) = (Pdf::new(), Ids::new());
    pdf.set_version(1, 7);
    let [catalogue, info, tree, resources] = [ids.next(), ids.next(), ids.next(), ids.next()];
    let pages = ids.several(document.pages.len());
    let (mut typefaces, mut opacities) = (Typefaces::new(faces), Opacities::default());
    for (i, page) in document.pages.iter().enumerate() {
        let size = size(&page.sheet).ok_or(Unwritten::PageSize(i))?;
        let drawn = drawn(&page.sheet, &mut typefaces, &mut opacities);
        let contents = ids.next();
        stream(&mut pdf, contents, &drawn, |_| ());
        let mut own = pdf.page(pages[i]);
        own.parent(tree).media_box(size).contents(contents);
        own.finish();
    }
    pdf.pages(tree)
        .kids(pages.iter().copied())
        .count(i32::try_from(pages.len()).unwrap_or(i32::MAX))
        .pair(Name(b"Resources"), resources);
    let Embedded { fonts, missing } = typefaces.write(&mut pdf, &mut ids)?;
    write_resources(&mut pdf, resources, &fonts, &opacities);
    let outline = bookmarks::write(&mut pdf, &mut ids, &document.bookmarks, &pages)?;
    let labels = labels(&mut pdf, &mut ids, &document.pages);
    let files = attachments(&mut pdf, &mut ids, &document.attachments);
    pdf.document_info(info).title(TextStr(&document.title)).producer(TextStr("Crestrail"));
    write_catalogue(&mut pdf, catalogue, document, tree, outline, &labels, &files);
    Ok(Written { bytes: pdf.finish(), missing })
}

/// The page's size in points, if it has one that readers can show.
fn size(sheet: &Sheet) -> Option<Rect> {
    let [width, height] = [sheet.width, sheet.height].map(|side| (side * points(sheet.unit)) as f32);
    let good = |side: f32| side > 0.0 && side <= LARGEST;
    (good(width) && good(height)).then(|| Rect::new(0.0, 0.0, width, height))
}

fn drawn(sheet: &Sheet, typefaces: &mut Typefaces<'_>, opacities: &mut Opacities) -> Vec<u8> {
    let mut pen = Pen::new(typefaces, opacities, sheet.height, points(sheet.unit));
    pen.items(&sheet.items);
    pen.content.finish().as_slice().to_vec()
}

/// Writes a squeezed stream, with more entries in its dictionary.
pub(super) fn stream(pdf: &mut Pdf, id: Ref, bytes: &[u8], more: impl FnOnce(&mut Stream<'_>)) {
    let squeezed = miniz_oxide::deflate::compress_to_vec_zlib(bytes, SQUEEZE);
    let mut stream = pdf.stream(id, &squeezed);
    stream.filter(Filter::FlateDecode);
    more(&mut stream);
}

fn write_resources(pdf: &mut Pdf, id: Ref, fonts: &[(Name<'_>, Ref)], opacities: &Opacities) {
    let mut resources = pdf.indirect(id).start::<pdf_writer::writers::Resources<'_>>();
    resources.fonts().pairs(fonts.iter().copied());
    let mut states = resources.ext_g_states();
    for (place, &(inside, line)) in opacities.0.iter().enumerate() {
        let name = Opacities::name(place);
        let mut state =
            states.insert(Name(name.as_bytes())).start::<pdf_writer::writers::ExtGraphicsState<'_>>();
        state.non_stroking_alpha(inside as f32).stroking_alpha(line as f32);
    }
}

/// One label a page.
fn labels(pdf: &mut Pdf, ids: &mut Ids, pages: &[Page]) -> Vec<Ref> {
    let own = ids.several(pages.len());
    for (id, page) in own.iter().zip(pages) {
        let mut label = pdf.indirect(*id).start::<pdf_writer::writers::PageLabel<'_>>();
        label.prefix(TextStr(&page.label));
    }
    own
}

/// The files by their names, which must be in order (ISO 32000-1, 7.9.6).
fn attachments(pdf: &mut Pdf, ids: &mut Ids, attachments: &[Attachment]) -> Vec<(String, Ref)> {
    let mut files = Vec::new();
    for attachment in attachments {
        let [spec, file] = [ids.next(), ids.next()];
        let squeezed = miniz_oxide::deflate::compress_to_vec_zlib(&attachment.bytes, SQUEEZE);
        let mut embedded = pdf.embedded_file(file, &squeezed);
        embedded.subtype(Name(attachment.media.as_bytes()));
        embedded.params().size(i32::try_from(attachment.bytes.len()).unwrap_or(i32::MAX));
        embedded.filter(Filter::FlateDecode);
        embedded.finish();
        let mut own = pdf.file_spec(spec);
        own.path(Str(attachment.name.as_bytes())).unic_file(TextStr(&attachment.name));
        own.description(TextStr(&attachment.description)).embedded_file_with_unicode(file);
        // Of PDF 2.0 (ISO 32000-2, 7.11.3); readers of 1.7 pass over it.
        own.association_kind(AssociationKind::Source);
        own.finish();
        files.push((attachment.name.clone(), spec));
    }
    files.order();
    files
}

fn write_catalogue(
    pdf: &mut Pdf,
    id: Ref,
    document: &Document,
    tree: Ref,
    outline: Option<Ref>,
    labels: &[Ref],
    files: &[(String, Ref)],
) {
    let mut catalogue = pdf.catalog(id);
    catalogue.pages(tree).lang(TextStr(&document.language));
    if let Some(outline) = outline {
        catalogue.outlines(outline).page_mode(PageMode::UseOutlines);
    }
    let mut preferences = catalogue.viewer_preferences();
    preferences.display_doc_title(true);
    // What is drawn at full size must not be fitted to the paper (ISO 32000-1, table 150).
    if document.full_size {
        preferences.pair(Name(b"PrintScaling"), Name(b"None"));
    }
    preferences.finish();
    let mut numbers = catalogue.page_labels();
    let mut entries = numbers.nums();
    for (page, &label) in (0..).zip(labels) {
        entries.insert(page, label);
    }
    entries.finish();
    numbers.finish();
    if !files.is_empty() {
        catalogue.insert(Name(b"AF")).array().items(files.iter().map(|(_, spec)| *spec));
        let mut names = catalogue.names();
        let mut tree = names.embedded_files();
        let mut entries = tree.names();
        for (name, spec) in files {
            entries.insert(Str(name.as_bytes()), *spec);
        }
    }
}
