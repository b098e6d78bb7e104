//! Volume, surface and centre of mass of solids.

use crate::{Face, Solid, Vec3};

impl Solid {
    /// Volume, mm³. By the divergence theorem: each ring spans a fan of tetrahedra with a point amid
    /// the solid, and holes, which run the other way, count negative by themselves.
    pub fn volume(&self) -> f64 {
        self.volume_and_centre().0
    }

    /// Centre of mass of the evenly filled solid, mm. The origin if the solid has no volume.
    pub fn centre_of_mass(&self) -> Vec3 {
        self.volume_and_centre().1
    }

    /// Both, for less than one after the other.
    pub fn volume_and_centre(&self) -> (f64, Vec3) {
        let (mut volume, mut moment) = (0.0, Vec3::ZERO);
        for (v, centre) in self.tetrahedra() {
            volume += v;
            moment += centre * v;
        }
        (volume, if volume == 0.0 { Vec3::ZERO } else { moment / volume })
    }

    /// Area of all faces, mm².
    pub fn surface_area(&self) -> f64 {
        self.faces.iter().map(|f| self.face_area(f)).sum()
    }

    /// Area of one face less its holes, mm².
    pub fn face_area(&self, face: &Face) -> f64 {
        let twice = |corners: &[u32]| {
            self.fan(corners).map(|[a, b, c]| face.normal.dot((b - a).cross(c - a))).sum::<f64>()
        };
        face.rings.iter().map(|r| twice(&r.corners)).sum::<f64>() * 0.5
    }

    /// Signed volume and centre of the tetrahedra between a point amid the solid and its surface.
    fn tetrahedra(&self) -> impl Iterator<Item = (f64, Vec3)> + '_ {
        let amid = if self.vertices.is_empty() { Vec3::ZERO } else { self.bounds().middle() };
        let rings = self.faces.iter().flat_map(|f| &f.rings);
        rings.flat_map(|r| self.fan(&r.corners)).map(move |[a, b, c]| {
            let volume = (a - amid).dot((b - amid).cross(c - amid)) / 6.0;
            (volume, (a + b + c + amid) / 4.0)
        })
    }

    fn fan<'a>(&'a self, corners: &'a [u32]) -> impl Iterator<Item = [Vec3; 3]> + 'a {
        let at = |v: u32| self.vertices[v as usize];
        corners.windows(2).skip(1).map(move |w| [at(corners[0]), at(w[0]), at(w[1])])
    }
}
