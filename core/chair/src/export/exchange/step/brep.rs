//! Solids as STEP tells them: shells of flat faces between straight edges (ISO 10303-42: `manifold_solid_brep`).

use super::data::{Data, Id, list, text};
use super::shells::{Shell, shells};
use crestrail_geometry::{Face, Solid, Vec3};
use std::collections::BTreeMap;

/// The solids of a shape: one unless it is in several pieces.
pub(super) fn solids(data: &mut Data, name: &str, solid: &Solid) -> Vec<Id> {
    let name = text(name);
    let mut rim = Rim::new(data, solid);
    let mut written = Vec::new();
    for Shell { faces, voids } in shells(solid) {
        let outer = rim.shell(&faces);
        let holes: Vec<Id> = voids.iter().map(|faces| rim.shell(faces)).collect();
        let turned: Vec<Id> =
            holes.iter().map(|h| rim.data.add(format_args!("ORIENTED_CLOSED_SHELL('',*,{h},.T.)"))).collect();
        written.push(match turned.as_slice() {
            [] => rim.data.add(format_args!("MANIFOLD_SOLID_BREP({name},{outer})")),
            some => rim.data.add(format_args!("BREP_WITH_VOIDS({name},{outer},({}))", list(some))),
        });
    }
    written
}

/// The corners and edges of a solid as they are written.
struct Rim<'a> {
    data: &'a mut Data,
    solid: &'a Solid,
    /// For each corner, where it is and the vertex there.
    corners: Vec<(Id, Id)>,
    /// Edges by their ends that wait for the face on their other side. Where arrises touch there may be several.
    waiting: BTreeMap<(u32, u32), Vec<Id>>,
}

impl<'a> Rim<'a> {
    fn new(data: &'a mut Data, solid: &'a Solid) -> Self {
        let corner = |&v: &Vec3| {
            let point = data.point(v);
            (point, data.add(format_args!("VERTEX_POINT('',{point})")))
        };
        let corners = solid.vertices.iter().map(corner).collect();
        Self { data, solid, corners, waiting: BTreeMap::new() }
    }

    fn shell(&mut self, faces: &[usize]) -> Id {
        let solid = self.solid;
        let written: Vec<Id> = faces.iter().map(|&f| self.face(&solid.faces[f])).collect();
        self.data.add(format_args!("CLOSED_SHELL('',({}))", list(&written)))
    }

    fn face(&mut self, face: &Face) -> Id {
        let mut bounds = Vec::with_capacity(face.rings.len());
        for (k, ring) in face.rings.iter().enumerate() {
            let next = ring.corners.iter().cycle().skip(1);
            let edges: Vec<Id> = ring.corners.iter().zip(next).map(|(&a, &b)| self.edge(a, b)).collect();
            let edges = self.data.add(format_args!("EDGE_LOOP('',({}))", list(&edges)));
            let entity = if k == 0 { "FACE_OUTER_BOUND" } else { "FACE_BOUND" };
            bounds.push(self.data.add(format_args!("{entity}('',{edges},.T.)")));
        }
        let (origin, along) = self.plane(face);
        let frame = self.data.placement(origin, face.normal, along);
        let plane = self.data.add(format_args!("PLANE('',{frame})"));
        self.data.add(format_args!("ADVANCED_FACE('',({}),{plane},.T.)", list(&bounds)))
    }

    /// A point amid the corners of the face, and a direction in its plane.
    fn plane(&self, face: &Face) -> (Vec3, Vec3) {
        let at = |c: u32| self.solid.vertices[c as usize];
        let rim = &face.rings[0].corners;
        let middle = rim.iter().fold(Vec3::ZERO, |sum, &c| sum + at(c)) / rim.len() as f64;
        let step = at(rim[1]) - at(rim[0]);
        (middle, (step - face.normal * face.normal.dot(step)).unit())
    }

    /// The edge from `a` to `b` as this face uses it: a new one, or the one that its neighbour uses the other way.
    fn edge(&mut self, a: u32, b: u32) -> Id {
        if let Some(edge) = self.waiting.get_mut(&(b, a)).and_then(Vec::pop) {
            return self.data.add(format_args!("ORIENTED_EDGE('',*,*,{edge},.F.)"));
        }
        let ((start, from), (_, to)) = (self.corners[a as usize], self.corners[b as usize]);
        let step = self.solid.vertices[b as usize] - self.solid.vertices[a as usize];
        let direction = self.data.direction(step.unit());
        let vector = self.data.add(format_args!("VECTOR('',{direction},1.)"));
        let line = self.data.add(format_args!("LINE('',{start},{vector})"));
        let edge = self.data.add(format_args!("EDGE_CURVE('',{from},{to},{line},.T.)"));
        self.waiting.entry((a, b)).or_default().push(edge);
        self.data.add(format_args!("ORIENTED_EDGE('',*,*,{edge},.T.)"))
    }
}
