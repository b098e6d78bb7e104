"""Files of solids read by other programs: STEP by OpenCascade, STL by manifold3d, glTF by its own numbers.

The validator of the format's makers reads glTF in `tests/browser/exchange.test.js`. Volumes are held against those that the
probe tells, which `test_solids.py` holds against an independent kernel.
"""

import base64
import json
import pathlib
import struct
import tempfile
import unittest

import manifold3d
import numpy as np
from OCP.Bnd import Bnd_Box
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps
from OCP.IFSelect import IFSelect_RetDone
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.collections import Sequence_TDF_Label
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool
from probe import Probe, buildable

SEED = 31
COUNT = 12
LEAST_SHARE = 0.9
# Of the volume of a part.
EXACT = 1e-6
# What numbers of 32 bits lose: 24 bits of a metre, and of areas and heights made from them.
SINGLE = 2e-4
# Of an outer size, mm: STEP tells ten-millionths, and the reader lets corners lie off their faces by 5e-5.
NEAR = 1e-3


def asked(probe, design, file_format, **rest):
    return base64.b64decode(probe.ask("exchange", design=design, format=file_format, **rest)["base64"])


class Step:
    """A STEP file in OpenCascade: its pieces by name, each a placed shape."""

    def __init__(self, text):
        self.pieces = {}
        self._document = TDocStd_Document(TCollection_ExtendedString("read"))
        reader = STEPCAFControl_Reader()
        reader.SetNameMode(True)
        with tempfile.TemporaryDirectory() as folder:
            path = pathlib.Path(folder) / "chair.step"
            path.write_bytes(text)
            self.status = reader.ReadFile(str(path))
        self.transferred = reader.Transfer(self._document)
        self._tool = XCAFDoc_DocumentTool.ShapeTool_s(self._document.Main())
        free = Sequence_TDF_Label()
        self._tool.GetFreeShapes(free)
        self.roots = [free.Value(i + 1) for i in range(free.Length())]
        for root in self.roots:
            parts = Sequence_TDF_Label()
            if XCAFDoc_ShapeTool.GetComponents_s(root, parts):
                for i in range(parts.Length()):
                    self._add(parts.Value(i + 1))
            else:
                self._add(root)

    def _add(self, label):
        name = name_of(label)
        if name in self.pieces:
            raise AssertionError(f"two pieces called {name}")
        self.pieces[name] = XCAFDoc_ShapeTool.GetShape_s(label)

    def product_of(self, name):
        """The name of the product that a piece uses."""
        parts = Sequence_TDF_Label()
        XCAFDoc_ShapeTool.GetComponents_s(self.roots[0], parts)
        for i in range(parts.Length()):
            if name_of(parts.Value(i + 1)) == name:
                product = TDF_Label()
                XCAFDoc_ShapeTool.GetReferredShape_s(parts.Value(i + 1), product)
                return name_of(product)
        raise KeyError(name)


def name_of(label):
    name = TDataStd_Name()
    return name.Get().ToExtString() if label.FindAttribute(TDataStd_Name.GetID_s(), name) else ""


def solids_in(shape):
    explorer, count = TopExp_Explorer(shape, TopAbs_SOLID), 0
    while explorer.More():
        count += 1
        explorer.Next()
    return count


def volume_of(shape):
    found = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, found, 1e-9)
    return found.Mass(), found.CentreOfMass()


def box_of(shape):
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, box, False, False)
    low, high = box.CornerMin(), box.CornerMax()
    return np.array([[low.X(), low.Y(), low.Z()], [high.X(), high.Y(), high.Z()]])


class Glb:
    """A glTF file: the triangles of each piece where its node stands, in mm and z up again."""

    def __init__(self, data):
        magic, version, length, json_length, json_mark = struct.unpack_from("<4sIII4s", data)
        assert (magic, version, length, json_mark) == (b"glTF", 2, len(data), b"JSON")
        self.tree = json.loads(data[20 : 20 + json_length])
        self._numbers = data[20 + json_length + 8 :]

    def pieces(self):
        for node in self.tree["nodes"]:
            if "mesh" in node:
                yield node["name"], self._triangles(node)

    def _triangles(self, node):
        (primitive,) = self.tree["meshes"][node["mesh"]]["primitives"]
        corners = self._read(primitive["attributes"]["POSITION"], np.float32, 3).astype(float)
        matrix = np.array(node["matrix"]).reshape(4, 4).T
        placed = corners @ matrix[:3, :3].T + matrix[:3, 3]
        triangles = self._read(primitive["indices"], np.uint32, 1).reshape(-1, 3)
        if np.linalg.det(matrix[:3, :3]) < 0:
            triangles = triangles[:, ::-1]
        right, up, front = placed.T * 1000
        return np.stack([right, -front, up], axis=1), triangles

    def _read(self, accessor, kind, width):
        row = self.tree["accessors"][accessor]
        start = self.tree["bufferViews"][row["bufferView"]]["byteOffset"]
        return np.frombuffer(self._numbers, kind, row["count"] * width, start).reshape(-1, width)


def volume_of_triangles(corners, triangles):
    a, b, c = (corners[triangles[:, i]] for i in range(3))
    middle = corners.mean(axis=0)
    return np.einsum("ij,ij->", a - middle, np.cross(b - middle, c - middle)) / 6


def stl_triangles(data):
    count = struct.unpack_from("<I", data, 80)[0]
    assert len(data) == 84 + 50 * count
    rows = np.frombuffer(data, np.dtype([("normal", "<3f4"), ("corners", "<9f4"), ("none", "<u2")]), count, 84)
    return rows["normal"].astype(float), rows["corners"].reshape(-1, 3, 3).astype(float)


class Exchange(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.probe = Probe()
        cls.addClassCleanup(cls.probe.close)
        random, words = buildable(cls.probe, SEED, COUNT, LEAST_SHARE)
        print(words, flush=True)
        kinds = [{"family": row["name"]} for row in cls.probe.ask("families")]
        cls.designs = kinds + random
        cls.solids = [{row["part"]: row for row in cls.probe.ask("solids", design=d)} for d in cls.designs]

    def each(self):
        for design, solids in zip(self.designs, self.solids):
            with self.subTest(design=json.dumps(design)):
                yield design, solids

    def test_step_of_the_chair(self):
        pieces = 0
        for design, solids in self.each():
            step = Step(asked(self.probe, design, "step", name="A chair"))
            self.assertEqual((step.status, step.transferred, len(step.roots)), (IFSelect_RetDone, True, 1))
            self.assertEqual(name_of(step.roots[0]), "A chair")
            self.assertEqual(sorted(step.pieces), sorted(solids))
            for name, shape in step.pieces.items():
                row = solids[name]
                self.assertTrue(BRepCheck_Analyzer(shape).IsValid(), f"{name} is no valid solid")
                volume, _ = volume_of(shape)
                self.assertLess(abs(volume / row["volume_mm3"] - 1), EXACT, name)
                corners = np.array(row["vertices"])
                wanted = np.array([corners.min(axis=0), corners.max(axis=0)])
                self.assertLess(np.abs(box_of(shape) - wanted).max(), NEAR, name)
                self.assertTrue(step.product_of(name).startswith(row["letter"]), name)
                pieces += solids_in(shape)
        self.assertGreater(pieces, 20 * len(self.designs))

    def test_step_of_each_part(self):
        design, solids = self.designs[0], self.solids[0]
        for row in self.probe.ask("shapes", design=design):
            step = Step(asked(self.probe, design, "step", part=row["name"]))
            (shape,) = step.pieces.values()
            self.assertTrue(BRepCheck_Analyzer(shape).IsValid(), row["name"])
            volume, _ = volume_of(shape)
            alike = [s["volume_mm3"] for s in solids.values() if s["letter"] == row["name"].split("-")[0]]
            self.assertTrue(any(abs(volume / own - 1) < EXACT for own in alike), row)

    def test_glb_of_the_chair(self):
        for design, solids in self.each():
            glb = Glb(asked(self.probe, design, "glb"))
            found = dict(glb.pieces())
            self.assertEqual(sorted(found), sorted(solids))
            for name, (corners, triangles) in found.items():
                row = solids[name]
                self.assertLess(abs(volume_of_triangles(corners, triangles) / row["volume_mm3"] - 1), SINGLE, name)
                own = np.array(row["vertices"])
                box = np.array([corners.min(axis=0) - own.min(axis=0), corners.max(axis=0) - own.max(axis=0)])
                self.assertLess(np.abs(box).max(), NEAR, name)
            self.assertLess(len(glb.tree["meshes"]), len(found))

    def test_stl_of_the_chair(self):
        for design, solids in self.each():
            normals, triangles = stl_triangles(asked(self.probe, design, "stl"))
            corners = triangles.reshape(-1, 3)
            volume = volume_of_triangles(corners, np.arange(len(corners)).reshape(-1, 3))
            wanted = sum(row["volume_mm3"] for row in solids.values())
            self.assertLess(abs(volume / wanted - 1), SINGLE)
            turned = np.cross(triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0])
            area = np.linalg.norm(turned, axis=1)
            broad = area > 1e-2
            agree = np.einsum("ij,ij->i", turned, normals)[broad] / area[broad]
            self.assertGreater(agree.min(), 0.999)

    def test_stl_of_a_part_is_closed(self):
        """manifold3d takes a mesh only if every edge has its opposite."""
        design = self.designs[0]
        for row in self.probe.ask("shapes", design=design):
            _, triangles = stl_triangles(asked(self.probe, design, "stl", part=row["name"]))
            mesh = manifold3d.Mesh(triangles.reshape(-1, 3).astype(np.float32), np.arange(len(triangles) * 3, dtype=np.uint32).reshape(-1, 3))
            mesh.merge()
            body = manifold3d.Manifold(mesh)
            self.assertEqual(body.status(), manifold3d.Error.NoError, row)
            self.assertGreater(body.volume(), 1.0)

    def test_a_stamp_is_only_told_when_handed_in(self):
        design = self.designs[0]
        with_stamp = asked(self.probe, design, "step", part="A", stamp="2026-05-04T12:30:00")
        self.assertIn(b"'2026-05-04T12:30:00'", with_stamp)
        without = asked(self.probe, design, "step", part="A")
        self.assertEqual(with_stamp.replace(b"2026-05-04T12:30:00", b""), without)


if __name__ == "__main__":
    unittest.main()
