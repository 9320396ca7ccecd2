// Bodies of a view as meshes: one for each part and stuff, faces shaded by how they lie, edges as thin lines.
import {BufferGeometry, Float32BufferAttribute, LineBasicMaterial, LineSegments, Mesh} from "./vendor/three.js";
import {material} from "./round_looks.js";

const BENT = Math.cos((35 * Math.PI) / 180);
const EACH = 5; // of a rounded side only each so many lines are drawn, so that it still reads as round
const less = (one, other) => one.map((part, at) => part - other[at]);
const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Whether every place of it is a number. */
const whole = (points) => points.every((point) => point.every((part) => part !== null && Number.isFinite(part)));

/** The way a flat face looks, and its area, by Newell's sums. */
function lie(corners) {
  const sum = [0, 0, 0];
  corners.forEach((a, at) => {
    const b = corners[(at + 1) % corners.length];
    sum[0] += (a[1] - b[1]) * (a[2] + b[2]);
    sum[1] += (a[2] - b[2]) * (a[0] + b[0]);
    sum[2] += (a[0] - b[0]) * (a[1] + b[1]);
  });
  const long = Math.hypot(...sum) || 1;
  return {out: sum.map((part) => part / long), area: long / 2};
}

/** Level faces are lightest; those to the south and north lie between them and those to the east and west. */
const shade = (out) => 1 - 0.09 * Math.abs(out[1]) - 0.17 * Math.abs(out[0]) - (out[2] < -0.5 ? 0.2 : 0);

function take(solid, store) {
  const faces = solid.faces.map((numbers) => ({numbers, corners: numbers.map((number) => solid.points[number])}));
  const beyond = new Map();
  for (const face of faces) {
    Object.assign(face, lie(face.corners));
    face.numbers.forEach((here, at) => beyond.set(`${here}-${face.numbers[(at + 1) % face.numbers.length]}`, face.out));
    const tone = shade(face.out);
    for (let at = 1; at + 1 < face.corners.length; at += 1) {
      for (const corner of [face.corners[0], face.corners[at], face.corners[at + 1]]) {
        store.places.push(...corner);
        store.tones.push(tone, tone, tone);
      }
    }
    if (face.area > store.largest) {
      store.largest = face.area;
      store.middle = face.corners.reduce((sum, corner) => sum.map((part, at) => part + corner[at]), [0, 0, 0]).map((part) => part / face.corners.length);
    }
  }
  faces.forEach((face, number) => {
    face.numbers.forEach((here, at) => {
      const there = face.numbers[(at + 1) % face.numbers.length];
      const other = beyond.get(`${there}-${here}`);
      if (other && (here > there || (dot(other, face.out) > BENT && number % EACH))) return;
      store.lines.push(...solid.points[here], ...solid.points[there]);
    });
  });
}

const attribute = (numbers) => new Float32BufferAttribute(numbers, 3);

/** Every part of the view as {part, stuff, label, mesh, edges, middle}. */
export function bodiesOf(round) {
  const stores = new Map();
  for (const solid of round.solids) {
    if (!whole(solid.points)) continue;
    const key = `${solid.part}\n${solid.stuff}`;
    if (!stores.has(key)) stores.set(key, {solid, places: [], tones: [], lines: [], largest: 0, middle: [0, 0, 0]});
    take(solid, stores.get(key));
  }
  return [...stores.values()].map(({solid, places, tones, lines, middle}) => {
    const flesh = new BufferGeometry().setAttribute("position", attribute(places)).setAttribute("color", attribute(tones));
    const rim = new BufferGeometry().setAttribute("position", attribute(lines));
    const body = {part: solid.part, stuff: solid.stuff, label: solid.label, middle};
    body.mesh = new Mesh(flesh, material());
    body.edges = new LineSegments(rim, new LineBasicMaterial());
    body.mesh.userData.body = body;
    if (solid.stuff === "outline") body.mesh.material.side = 2; // both sides: a bare shell is open above
    return body;
  });
}

/** The thin lines of the view, all in one. */
export function wiresOf(round) {
  const places = [];
  for (const wire of round.wires) {
    if (!whole(wire.points)) continue;
    wire.points.slice(1).forEach((point, at) => places.push(...wire.points[at], ...point));
  }
  return new LineSegments(new BufferGeometry().setAttribute("position", attribute(places)), new LineBasicMaterial({transparent: true, opacity: 0.55}));
}

/** The ball round all bodies: {middle, size}. */
export function ballOf(round) {
  const places = round.solids.filter((solid) => whole(solid.points)).flatMap((solid) => solid.points);
  if (!places.length) return {middle: [0, 0, 0], size: 1};
  const ends = [0, 1, 2].map((axis) => {
    const along = places.map((place) => place[axis]);
    return [along.reduce((a, b) => Math.min(a, b)), along.reduce((a, b) => Math.max(a, b))];
  });
  const middle = ends.map(([low, high]) => (low + high) / 2);
  return {middle, size: Math.max(...places.map((place) => Math.hypot(...less(place, middle)))) || 1};
}
