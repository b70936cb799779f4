import { bench, describe } from 'vitest';
import { partsOf } from '../../src/build/parts.ts';
import { shapesOf } from '../../src/build/shapes.ts';
import { prepare } from '../../src/documents/admit.ts';
import type { Json } from '../../src/documents/json.ts';
import { handlesOf } from '../../src/edits/handles.ts';
import { movePoint } from '../../src/edits/move.ts';
import { snap } from '../../src/edits/snap.ts';
import { previewOf } from '../../src/runs/preview.ts';
import { largest } from '../rigs/largest.ts';

const document = JSON.parse(largest()) as Json;
const handles = handlesOf(document);
const prepared = prepare(document);
if (!prepared.ok) throw new Error('the largest document cannot be read');
const drawn = prepared.value;
const path = ['vehicle', 'members', 7, 'at'];

let turn = 0;
/** Another place with every call. */
const place = () => {
  turn = (turn + 1) % 100;
  return { x: -5.6 + turn * 0.001, z: 0.4 };
};

describe('one frame of a drag, 16 axle lines and 2,000 points of ground', () => {
  bench('everything between pointer and picture', () => {
    const points = handles.map(({ at }) => at);
    const { at } = snap(place(), { pitch: 0.001, points, reach: 0.01 });
    const next = movePoint(document, path, at).document;
    const read = prepare(next);
    if (!read.ok) throw new Error('the moved document cannot be read');
    shapesOf(next, read.value, handlesOf(next));
    previewOf(read.value);
  });
  bench('the edit alone', () => {
    movePoint(document, path, place());
  });
  bench('reading and compiling the document', () => {
    prepare(document);
  });
  bench('handles', () => {
    handlesOf(document);
  });
  bench('shapes', () => {
    shapesOf(document, drawn, handles);
  });
  bench('the tree of parts', () => {
    partsOf(document);
  });
});
