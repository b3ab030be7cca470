// Pieces of which nothing but their box is to be seen: all of them in one buffer. They are many,
// and without a graphics card each piece of a call costs as much as a call of its own.

// Corners by bits for high x, y, z; four for each of the six faces, and two for each of the lines.
const BOX_FACES = [[0, 4, 6, 2], [1, 3, 7, 5], [0, 1, 5, 4], [2, 6, 7, 3], [0, 2, 3, 1], [4, 5, 7, 6]];
const BOX_LINES = [0, 1, 2, 3, 4, 5, 6, 7, 0, 2, 1, 3, 4, 6, 5, 7, 0, 4, 1, 5, 2, 6, 3, 7];

function startBoxes(root, look, most) {
  const faces = new THREE.Mesh(bufferOf(most, 24, ["position", "normal", "color"]), look.faces);
  const lines = new THREE.LineSegments(bufferOf(most, 24, ["position", "color"]), look.lines);
  faces.geometry.setIndex(new THREE.BufferAttribute(Uint32Array.from(
    { length: 36 * most }, (_, i) => 4 * Math.floor(i / 6) + [0, 1, 2, 0, 2, 3][i % 6],
  ), 1));
  for (const one of [faces, lines]) {
    one.frustumCulled = false;
    root.add(one);
  }
  let count = 0, lined = 0;

  return {
    clear() { count = 0; lined = 0; },
    put(body, tint, edge, isLined) {
      const corners = cornersOf(body), { at } = body;
      const { position, normal, color } = faces.geometry.attributes;
      let i = 72 * count;
      for (const [which, face] of BOX_FACES.entries()) {
        const axis = 3 * (which >> 1), way = which % 2 ? 1 : -1;
        for (const corner of face) {
          position.array[i] = corners.at[3 * corner] + at.x;
          position.array[i + 1] = corners.at[3 * corner + 1] + at.y;
          position.array[i + 2] = corners.at[3 * corner + 2] + at.z;
          normal.array[i] = way * corners.axes[axis];
          normal.array[i + 1] = way * corners.axes[axis + 1];
          normal.array[i + 2] = way * corners.axes[axis + 2];
          tint.toArray(color.array, i);
          i += 3;
        }
      }
      count += 1;
      if (!isLined) return;
      const ends = lines.geometry.attributes;
      BOX_LINES.forEach((corner, which) => {
        const k = 72 * lined + 3 * which;
        ends.position.array[k] = corners.at[3 * corner] + at.x;
        ends.position.array[k + 1] = corners.at[3 * corner + 1] + at.y;
        ends.position.array[k + 2] = corners.at[3 * corner + 2] + at.z;
        edge.toArray(ends.color.array, k);
      });
      lined += 1;
    },
    show() {
      for (const [one, many, indices] of [[faces, count, 36], [lines, lined, 24]]) {
        one.visible = many > 0;
        one.geometry.setDrawRange(0, indices * many);
        for (const values of Object.values(one.geometry.attributes)) {
          values.updateRange = { offset: 0, count: 72 * many };
          values.needsUpdate = many > 0;
        }
      }
    },
    end() {
      faces.geometry.dispose();
      lines.geometry.dispose();
    },
  };
}

function bufferOf(most, corners, names) {
  const buffer = new THREE.BufferGeometry();
  for (const name of names) {
    const values = new THREE.BufferAttribute(new Float32Array(3 * corners * most), 3);
    buffer.setAttribute(name, values.setUsage(THREE.DynamicDrawUsage));
  }
  return buffer;
}

// The corners of a body's box from where the body is, and which way its axes point; worked out once.
function cornersOf(body) {
  if (!body.corners) {
    const { min, max } = body.shape.box, point = new THREE.Vector3(), at = [];
    for (let i = 0; i < 8; i += 1) {
      point.set(i & 1 ? max.x : min.x, i & 2 ? max.y : min.y, i & 4 ? max.z : min.z);
      at.push(...point.applyMatrix4(body.turn).toArray());
    }
    const turn = body.turn.elements;
    body.corners = { at, axes: [0, 4, 8].flatMap((first) => [turn[first], turn[first + 1], turn[first + 2]]) };
  }
  return body.corners;
}
