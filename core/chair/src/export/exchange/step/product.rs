//! Products and how they hang together (ISO 10303-41 and -44): one for each shape, one for the chair.

use super::data::{Data, Id, text};
use crestrail_geometry::Place;

/// What all products share.
pub(super) struct Frame {
    product_context: Id,
    design_context: Id,
    /// Units and how far corners and faces may be apart.
    pub(super) units: Id,
}

/// A product with its one shape.
pub(super) struct Product {
    definition: Id,
    /// The representation of its shape.
    representation: Id,
}

/// How far corners may lie off the planes of their faces, mm: a few times what they are welded within.
const APART: &str = "5.E-5";

impl Frame {
    pub(super) fn write(data: &mut Data) -> Self {
        let application = data
            .add(format_args!("APPLICATION_CONTEXT('core data for automotive mechanical design processes')"));
        data.add(format_args!(
            "APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,{application})"
        ));
        let product_context = data.add(format_args!("PRODUCT_CONTEXT('',{application},'mechanical')"));
        let design_context =
            data.add(format_args!("PRODUCT_DEFINITION_CONTEXT('part definition',{application},'design')"));
        Self { product_context, design_context, units: units(data) }
    }

    /// A product, whose shape is told by the items; `kind` is the entity of its representation. The first item is the frame
    /// that others place it by.
    pub(super) fn product(
        &self,
        data: &mut Data,
        (id, name): (&str, &str),
        kind: &str,
        items: &[Id],
    ) -> Product {
        let (id, name) = (text(id), text(name));
        let product = data.add(format_args!("PRODUCT({id},{name},'',({}))", self.product_context));
        data.add(format_args!("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,({product}))"));
        let formation = data.add(format_args!("PRODUCT_DEFINITION_FORMATION('','',{product})"));
        let definition =
            data.add(format_args!("PRODUCT_DEFINITION('design','',{formation},{})", self.design_context));
        let shape = data.add(format_args!("PRODUCT_DEFINITION_SHAPE('','',{definition})"));
        let items = super::data::list(items);
        let representation = data.add(format_args!("{kind}({name},({items}),{})", self.units));
        data.add(format_args!("SHAPE_DEFINITION_REPRESENTATION({shape},{representation})"));
        Product { definition, representation }
    }
}

fn units(data: &mut Data) -> Id {
    let length = data.add(format_args!("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))"));
    let angle = data.add(format_args!("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))"));
    let solid = data.add(format_args!("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())"));
    let apart = data.add(format_args!(
        "UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE({APART}),{length},'distance_accuracy_value','corners off their faces')"
    ));
    data.add(format_args!(
        "(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({apart}))GLOBAL_UNIT_ASSIGNED_CONTEXT(({length},{angle},{solid}))REPRESENTATION_CONTEXT('','3D'))"
    ))
}

/// One use of a part in the whole.
pub(super) struct Use<'a> {
    pub(super) number: usize,
    pub(super) name: &'a str,
    /// The part's own frame, and the frame of the whole into which that goes.
    pub(super) from: Id,
    pub(super) to: Id,
}

/// Stands a part in the whole.
pub(super) fn stand(data: &mut Data, whole: &Product, part: &Product, use_: &Use<'_>) {
    let Use { number, name, from, to } = use_;
    let name = text(name);
    let occurrence = data.add(format_args!(
        "NEXT_ASSEMBLY_USAGE_OCCURRENCE('{number}',{name},'',{},{},$)",
        whole.definition, part.definition
    ));
    let shape = data.add(format_args!("PRODUCT_DEFINITION_SHAPE('','',{occurrence})"));
    let moved = data.add(format_args!("ITEM_DEFINED_TRANSFORMATION('','',{from},{to})"));
    let relation = data.add(format_args!(
        "(REPRESENTATION_RELATIONSHIP('','',{},{})REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION({moved})SHAPE_REPRESENTATION_RELATIONSHIP())",
        part.representation, whole.representation
    ));
    data.add(format_args!("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION({relation},{shape})"));
}

/// A frame of the chair as a placement.
pub(super) fn placement(data: &mut Data, place: &Place) -> Id {
    data.placement(place.origin, place.z, place.x)
}
