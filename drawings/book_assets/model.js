// The pieces of the unit from the model: a body for each by its name. Equal pieces share a shape.
// All is told in the frame of the model's root: metres, X to the right, Y to the back, Z up.

const EDGE_ANGLE = 25; // degrees; faces that meet more bluntly show no line
const ONE_FACE = 0.9999; // cosine between triangles of one flat face
const FLUSH = 1e-6; // metres

function modelBytes() {
  const text = atob(document.getElementById("model").textContent);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) bytes[i] = text.charCodeAt(i);
  return bytes.buffer;
}

function loadModel(bytes, pieces) {
  return new Promise((done, failed) => {
    new THREE.GLTFLoader().parse(bytes, "", (gltf) => done(modelOf(gltf, pieces)), failed);
  });
}

function modelOf(gltf, pieces) {
  const nodes = new Map(), shapes = new Map();
  const root = new THREE.Group();
  gltf.scene.traverse((node) => {
    // The loader tidies names; the name in the file is kept beside them.
    if (node.isMesh) nodes.set(node.userData.name, node);
  });
  const bodies = pieces.map((piece) => {
    const node = nodes.get(piece.name);
    if (!node) throw new Error(`the model has no piece named ${piece.name}`);
    if (!shapes.has(node.geometry)) shapes.set(node.geometry, shapeOf(node.geometry));
    const shape = shapes.get(node.geometry);
    root.position.copy(node.parent.position);
    root.quaternion.copy(node.parent.quaternion);
    root.scale.copy(node.parent.scale);
    node.updateMatrix();
    return {
      shape, turn: node.matrix.clone().setPosition(0, 0, 0), colour: node.material.color,
      home: node.position, at: node.position.clone(), isThere: true,
      middle: shape.box.getCenter(new THREE.Vector3()).applyMatrix4(node.matrix),
      radius: shape.box.getSize(new THREE.Vector3()).length() / 2,
    };
  });
  root.updateMatrixWorld();
  return { root, bodies, shapes: [...shapes.values()] };
}

// What is worked out once of a closed mesh: its faces in one tone each, its lines, its box. Faces
// and lines stand with the largest first, and their sizes beside them, so that what is too small
// to be seen can be left out from the end.
function shapeOf(mesh) {
  const corners = mesh.attributes.position.array;
  const { triangles, normals, sizes, lines } = ordered(corners, mesh.index.array);
  mesh.computeBoundingBox();
  const box = mesh.boundingBox;
  const [, breadth] = box.getSize(new THREE.Vector3()).toArray().sort((one, other) => one - other);
  return {
    corners, triangles, box, breadth, lack: lackOf(corners, triangles, normals, box), sizes,
    faces: facesOf(corners, triangles, normals), ...edgesOf(corners, lines),
  };
}

// The normal of a triangle, as long as twice its area.
const crossOf = (() => {
  const a = new THREE.Vector3(), b = new THREE.Vector3(), c = new THREE.Vector3();
  return (corners, triangles, first) => {
    a.fromArray(corners, 3 * triangles[first]);
    b.fromArray(corners, 3 * triangles[first + 1]).sub(a);
    c.fromArray(corners, 3 * triangles[first + 2]).sub(a);
    return b.cross(c);
  };
})();

function areaOf(corners, triangles, first) {
  return crossOf(corners, triangles, first).length() / 2;
}

function normalsOf(corners, triangles) {
  const found = new Float32Array(triangles.length);
  for (let i = 0; i < triangles.length; i += 3) {
    crossOf(corners, triangles, i).normalize().toArray(found, i);
  }
  return found;
}

// Each face in one tone, worked out at its corners: machines without a graphics card draw it too.
// Triangles of one plane share their corners, since each corner has to be put in its place.
function facesOf(corners, triangles, normals) {
  const places = [], tones = [], index = new Uint32Array(triangles.length);
  const known = Array.from({ length: corners.length / 3 }, () => []);
  for (let i = 0; i < triangles.length; i += 1) {
    const first = i - (i % 3), corner = triangles[i];
    const [x, y, z] = normals.subarray(first, first + 3);
    let at = known[corner].find((one) => (
      Math.abs(tones[3 * one] - x) + Math.abs(tones[3 * one + 1] - y)
        + Math.abs(tones[3 * one + 2] - z) < 1e-3
    ));
    if (at === undefined) {
      at = places.length / 3;
      known[corner].push(at);
      places.push(corners[3 * corner], corners[3 * corner + 1], corners[3 * corner + 2]);
      tones.push(x, y, z);
    }
    index[i] = at;
  }
  const faces = new THREE.BufferGeometry();
  faces.setAttribute("position", new THREE.Float32BufferAttribute(places, 3));
  faces.setAttribute("normal", new THREE.Float32BufferAttribute(tones, 3));
  faces.setIndex(new THREE.BufferAttribute(index, 1));
  return faces;
}

// The triangles by the size of the flat face that each is a bit of, metres, and the lines where
// two faces meet sharply, as pairs of corners.
function ordered(corners, triangles) {
  const count = corners.length / 3, blunt = Math.cos(THREE.MathUtils.degToRad(EDGE_ANGLE));
  const normals = normalsOf(corners, triangles), met = new Map(), lines = [];
  const face = Uint32Array.from({ length: triangles.length / 3 }, (_, i) => i);
  const faceOf = (one) => {
    let at = one;
    while (face[at] !== at) at = face[at] = face[face[at]];
    return at;
  };
  for (let i = 0; i < triangles.length; i += 1) {
    const first = i - (i % 3);
    const from = triangles[i], to = triangles[i % 3 === 2 ? first : i + 1];
    const key = Math.min(from, to) * count + Math.max(from, to), other = met.get(key);
    if (other === undefined) {
      met.set(key, first);
    } else {
      const along = normals[first] * normals[other] + normals[first + 1] * normals[other + 1]
        + normals[first + 2] * normals[other + 2];
      if (along > ONE_FACE) face[faceOf(first / 3)] = faceOf(other / 3);
      if (along <= blunt) lines.push(from, to);
    }
  }
  const areas = new Float32Array(face.length);
  face.forEach((_, i) => { areas[faceOf(i)] += areaOf(corners, triangles, 3 * i); });
  const order = [...face.keys()].sort((one, other) => (
    areas[faceOf(other)] - areas[faceOf(one)] || one - other
  ));
  return {
    lines,
    triangles: Uint32Array.from(order.flatMap((i) => [...triangles.subarray(3 * i, 3 * i + 3)])),
    normals: Float32Array.from(order.flatMap((i) => [...normals.subarray(3 * i, 3 * i + 3)])),
    sizes: Float32Array.from(order, (i) => Math.sqrt(areas[faceOf(i)])),
  };
}

function edgesOf(corners, lines) {
  const ends = [];
  for (let i = 0; i < lines.length; i += 2) {
    const [one, other] = [lines[i], lines[i + 1]].map((k) => corners.subarray(3 * k, 3 * k + 3));
    ends.push([Math.hypot(...[0, 1, 2].map((axis) => one[axis] - other[axis])), one, other]);
  }
  ends.sort(([one], [other]) => other - one);
  const edges = new THREE.BufferGeometry();
  const places = ends.flatMap(([, one, other]) => [...one, ...other]);
  edges.setAttribute("position", new THREE.Float32BufferAttribute(places, 3));
  return { edges, lengths: Float32Array.from(ends, ([length]) => length) };
}

// How many of some sizes, the largest first, are no less than another.
function countOf(sizes, least) {
  let low = 0, high = sizes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sizes[middle] >= least) low = middle + 1;
    else high = middle;
  }
  return low;
}

// How much of its box a shape lacks: the side of a square as large as what is cut out of that
// face of the box of which most is cut out, metres.
function lackOf(corners, triangles, normals, box) {
  const low = box.min.toArray(), high = box.max.toArray();
  const size = high.map((one, axis) => one - low[axis]);
  const left = [0, 1, 2, 3, 4, 5].map((face) => size[(face + 1) % 3] * size[(face + 2) % 3]);
  for (let i = 0; i < triangles.length; i += 3) {
    const axis = [0, 1, 2].find((one) => Math.abs(normals[i + one]) > ONE_FACE);
    if (axis === undefined) continue;
    const isHigh = normals[i + axis] > 0;
    const place = corners[3 * triangles[i] + axis];
    if (Math.abs(place - (isHigh ? high : low)[axis]) > FLUSH) continue;
    left[axis + (isHigh ? 3 : 0)] -= areaOf(corners, triangles, i);
  }
  return Math.sqrt(Math.max(0, ...left));
}
