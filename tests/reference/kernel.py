"""Bodies in the independent kernel, manifold3d: from the core's meshes, and from plain half-spaces."""

import itertools

import manifold3d
import numpy as np
from manifold3d import Error, Manifold, Mesh64

# Two corners of one convex body nearer than this are one corner, mm.
SAME = 1e-7

# Faces that coincide but for the last digits can lead the kernel's booleans astray by whole cubic
# millimetres, so one of two bodies is first moved by a hair, mm: a thousand mm² of contact then count
# as a ten-thousandth of a mm³.
HAIR = np.array([1.1e-7, -0.7e-7, 0.9e-7])


def from_mesh(vertices, faces):
    """A body from polygons; raises where the kernel does not take the mesh as a closed surface."""
    points = np.asarray(vertices, float)
    triangles = np.concatenate([triangulated(points, face) for face in faces])
    return checked(Manifold(Mesh64(points, triangles.astype(np.uint64))))


def checked(body):
    if body.status() != Error.NoError:
        raise AssertionError(f"the kernel refuses a body: {body.status()}")
    return body


def triangulated(points, face):
    """Triangles of a flat polygon without holes, counter-clockwise as it is."""
    ring = np.asarray(face)
    if len(ring) == 3:
        return ring[None, :]
    corners = points[ring]
    normal = newell(corners)
    across, up = frame_of(normal)
    flat = np.column_stack([corners @ across, corners @ up])
    return ring[without_slivers(flat, manifold3d.triangulate([flat]))]


def without_slivers(flat, triangles):
    """The triangles, of which those with three corners in one line are turned with their neighbour.

    The kernel would turn them itself when it takes the mesh, but now and then with a neighbour in another plane.
    """
    triangles = [tuple(map(int, t)) for t in triangles]
    for _ in range(2 * len(triangles)):
        sliver = next((t for t in triangles if height(flat[list(t)]) < SAME), None)
        if sliver is None:
            break
        # b lies between a and c, so the neighbour beyond that edge is of the same face.
        a, b, c = longest_last(flat, sliver)
        other = next((t for t in triangles if t != sliver and a in t and c in t), None)
        if other is None:
            break
        d = next(v for v in other if v not in (a, c))
        triangles = [t for t in triangles if t not in (sliver, other)] + [(a, b, d), (b, c, d)]
    return np.array(triangles)


def height(corners):
    """Height of a flat triangle over its longest side."""
    sides = np.roll(corners, -1, axis=0) - corners
    return abs(cross(sides[0], sides[1])) / np.linalg.norm(sides, axis=1).max()


def cross(one, other):
    return one[0] * other[1] - one[1] * other[0]


def longest_last(flat, triangle):
    """The corners in their order round, turned so that the longest side runs from the last to the first."""
    turned = [triangle[i:] + triangle[:i] for i in range(3)]
    return max(turned, key=lambda t: np.linalg.norm(flat[t[2]] - flat[t[0]]))


def newell(corners):
    """Normal of a polygon, as long as twice its area (Newell's sum)."""
    middle = corners - corners.mean(axis=0)
    return np.cross(middle, np.roll(middle, -1, axis=0)).sum(axis=0)


def frame_of(normal):
    """Two unit vectors that make a right-handed frame with the normal."""
    normal = normal / np.linalg.norm(normal)
    seed = np.eye(3)[np.argmin(np.abs(normal))]
    across = np.cross(seed, normal)
    across /= np.linalg.norm(across)
    return across, np.cross(normal, across)


def from_row(row):
    """A body from a row of the ask `bodies`."""
    if "planes" in row:
        return from_planes(row["planes"])
    return from_prism(**row["prism"])


def from_planes(planes):
    """The body inside all the half-spaces n · p ≤ d."""
    planes = np.asarray(planes, float)
    triples = np.array(list(itertools.combinations(range(len(planes)), 3)))
    normals, offsets = planes[triples, :3], planes[triples, 3]
    crossing = np.abs(np.linalg.det(normals)) > 1e-9
    corners = np.linalg.solve(normals[crossing], offsets[crossing][..., None])[..., 0]
    inside = (corners @ planes[:, :3].T <= planes[:, 3] + SAME).all(axis=1)
    return checked(Manifold.hull_points(corners[inside]))


def from_prism(frame, outline, **ends):
    origin, *axes = (np.asarray(v, float) for v in frame)
    low, high = ends["from"], ends["to"]
    section = manifold3d.CrossSection([np.asarray(outline, float)])
    body = Manifold.extrude(section, high - low).translate([0.0, 0.0, low])
    body = body.transform(np.column_stack([*axes, origin]))
    for *normal, offset in ends["clip"]:
        body = body.trim_by_plane([-n for n in normal], -offset)
    return checked(body)


def union(bodies):
    return Manifold.batch_boolean(list(bodies), manifold3d.OpType.Add)


def carved(added, cut):
    """The kernel's own carving of a part."""
    body = union(map(from_row, added))
    return body - union(map(from_row, cut)) if cut else body


def common_volume(one, other):
    return (one ^ other.translate(HAIR)).volume()


def difference_volume(one, other):
    """Volume that lies in exactly one of the two."""
    other = other.translate(HAIR)
    return (one - other).volume() + (other - one).volume()


def into_frame(body, frame):
    """The body told in the coordinates of a frame (origin and three unit axes)."""
    origin, *axes = (np.asarray(v, float) for v in frame)
    turn = np.array(axes)
    return body.transform(np.column_stack([turn, -turn @ origin]))


def out_of_frame(body, frame):
    """The body told in the coordinates of a frame, in those in which the frame is told."""
    origin, *axes = (np.asarray(v, float) for v in frame)
    return body.transform(np.column_stack([*axes, origin]))


def swollen(body, by):
    """The body larger by a share of its size, about its middle."""
    box = np.array(body.bounding_box())
    middle = (box[:3] + box[3:]) / 2
    return body.translate(-middle).scale([1.0 + by] * 3).translate(middle)


def boxes_meet(one, other, slack=1e-6):
    a, b = np.array(one.bounding_box()), np.array(other.bounding_box())
    return bool((a[:3] < b[3:] + slack).all() and (b[:3] < a[3:] + slack).all())
