// The pieces of the unit from the model in the page: one node for each, by its name.

const EDGE_ANGLE = 25;
const EDGE_COLOUR = 0x2a2520;
const CHOSEN_COLOUR = new THREE.Color(0x2f9dbb).convertSRGBToLinear();

function modelBytes() {
  const text = atob(document.getElementById("model").textContent);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) bytes[i] = text.charCodeAt(i);
  return bytes.buffer;
}

function loadModel(pieces) {
  return new Promise((done, failed) => {
    new THREE.GLTFLoader().parse(modelBytes(), "", (gltf) => done(dressed(gltf, pieces)), failed);
  });
}

function dressed(gltf, pieces) {
  const nodes = new Map();
  let root = null;
  gltf.scene.traverse((node) => {
    if (node.isMesh) {
      // The loader tidies names; the name in the file is kept beside them.
      nodes.set(node.userData.name, node);
      root = node.parent;
    }
  });
  const lines = new THREE.LineBasicMaterial({ color: EDGE_COLOUR });
  const shapes = new Map();
  const bodies = pieces.map((piece) => {
    const mesh = nodes.get(piece.name);
    if (!mesh) throw new Error(`the model has no piece named ${piece.name}`);
    mesh.material = new THREE.MeshLambertMaterial({
      color: mesh.material.color, polygonOffset: true, polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    });
    if (!shapes.has(mesh.geometry)) {
      shapes.set(mesh.geometry, {
        flat: flat(mesh.geometry), edges: new THREE.EdgesGeometry(mesh.geometry, EDGE_ANGLE),
      });
    }
    const shape = shapes.get(mesh.geometry);
    mesh.geometry = shape.flat;
    const outline = new THREE.LineSegments(shape.edges, lines.clone());
    outline.raycast = () => {};
    mesh.add(outline);
    const box = new THREE.Box3().setFromObject(mesh);
    return {
      mesh, outline, home: mesh.position.clone(), colour: mesh.material.color.clone(),
      middle: root.worldToLocal(box.getCenter(new THREE.Vector3())),
      radius: box.getSize(new THREE.Vector3()).length() / 2,
    };
  });
  return { scene: gltf.scene, root, bodies };
}

// Each face in one tone, worked out at its corners: machines without a graphics card draw it too.
function flat(geometry) {
  const faces = geometry.toNonIndexed();
  faces.computeVertexNormals();
  faces.computeBoundingBox();
  return faces;
}

// How a piece looks: as it is, chosen, or faded because another is looked at.
function paint(body, isChosen, isFaded) {
  const { material } = body.mesh;
  material.color.copy(body.colour);
  if (isChosen) material.color.lerp(CHOSEN_COLOUR, 0.75);
  fade(material, isFaded ? 0.07 : 1);
  fade(body.outline.material, isFaded ? 0.25 : 1);
  body.outline.material.color.setHex(isChosen ? 0x063a4a : EDGE_COLOUR);
}

function fade(material, opacity) {
  const isFaded = opacity < 1;
  // The engine has one program for what is opaque and another for what is not.
  if (material.transparent !== isFaded) material.needsUpdate = true;
  Object.assign(material, { transparent: isFaded, opacity, depthWrite: !isFaded });
}
