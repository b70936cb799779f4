import axe from 'axe-core';
import { act, type ReactNode, useState } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { userEvent } from 'vitest/browser';
import corrie from '../../scenarios/corrie-6x6.json';
import { place, unplace, type Vec2 } from '../../shared/geometry/vec.ts';
import { column } from '../../shared/recording.ts';
import { appraise, compile, crawl, layGround, loadScenario } from '../../sim/index.ts';
import { Handles } from '../../src/canvas/Handles.tsx';
import type { Handle, HandleProblem } from '../../src/canvas/handles/handle.ts';
import { stepOf } from '../../src/canvas/handles/steps.ts';
import type { PivotMap } from '../../src/canvas/pivotMap.ts';
import { SceneView } from '../../src/canvas/SceneView.tsx';
import { Sight } from '../../src/canvas/sight.ts';
import { numberOf, shareColour } from '../../src/charts/colour.ts';
import { LimitsPlot } from '../../src/charts/LimitsPlot.tsx';
import { palettes } from '../../src/charts/palette.ts';
import { Playhead } from '../../src/playhead.ts';
import type { Solved } from '../../src/solved.ts';
import { Viewport } from '../../src/viewport.ts';

function crossCorrie(): Solved {
  const checked = loadScenario(corrie);
  if (!checked.ok) throw new Error(checked.problems.map((p) => p.message).join('; '));
  const recording = crawl(checked.value);
  return {
    mechanism: compile(checked.value),
    ground: layGround(checked.value),
    recording,
    report: appraise(checked.value, recording),
  };
}

const solved = crossCorrie();
const { mechanism } = solved;
const look = { theme: 'light', still: false } as const;
const WIDTH = 1000;
const HEIGHT = 460;
const step = stepOf(mechanism.size);

/** A pin of the bogie on the chassis, and the hub of a wheel that moves against it. */
const bogie = mechanism.joints.find((j) => j.kind === 'hinge' && j.parent === 0);
if (bogie === undefined) throw new Error('nothing hangs on the chassis of this vehicle');
const hub = mechanism.wheels.find((w) => w.body > 0) as (typeof mechanism.wheels)[number];
const handles: readonly Handle[] = [
  { id: 'bogie', label: 'bogie pivot', body: 0, at: bogie.anchor },
  { id: 'hub', label: 'middle hub', body: hub.body, at: hub.hub },
];

let host: HTMLElement;
let root: Root;
let playhead: Playhead;
let viewport: Viewport;
let sight: Sight;
let told: (readonly [string, string, Vec2?])[];
let said: string[];

beforeEach(() => {
  host = document.createElement('div');
  host.style.cssText = `width: ${WIDTH}px; height: ${HEIGHT}px; position: absolute; left: 0; top: 0`;
  document.body.append(host);
  root = createRoot(host);
  playhead = new Playhead();
  playhead.show(Math.round(solved.recording.frames * 0.35));
  viewport = new Viewport();
  sight = new Sight();
  told = [];
  said = [];
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
});

afterEach(async () => {
  await act(async () => root.unmount());
  host.remove();
});

async function mount(children: ReactNode): Promise<void> {
  await act(async () => root.render(children));
  await expect.poll(() => sight.now?.frame, { timeout: 15_000 }).toBe(playhead.frame);
  const box = sight.now?.poses[0]?.x ?? 0;
  await act(async () => viewport.show({ from: box - 0.6, to: box + 0.5 }));
}

/** A picture with handles that answers moves as the app does: a place forward of `wall` cannot be. */
function Picture({ wall = Number.POSITIVE_INFINITY, map = null as PivotMap | null, joints = false }) {
  const [problem, setProblem] = useState<HandleProblem | null>(null);
  return (
    <main style={{ position: 'relative', height: HEIGHT }}>
      <SceneView
        solved={solved}
        before={null}
        playhead={playhead}
        viewport={viewport}
        look={look}
        follow={false}
        onFollow={() => undefined}
        sight={sight}
        map={map}
        forces={joints ? 'joints' : 'wheels'}
      />
      <Handles
        solved={solved}
        sight={sight}
        handles={handles}
        problem={problem}
        look={look}
        onMove={(id, at) => {
          told.push(['move', id, at]);
          setProblem(at.x > wall ? { id, says: 'The arm is too short.' } : null);
        }}
        onKeep={(id, at) => told.push(['keep', id, at])}
        onCancel={(id) => told.push(['cancel', id])}
        onSay={(words) => said.push(words)}
        onPick={(id) => told.push(['pick', id])}
      />
    </main>
  );
}

const slider = (name: string) =>
  host.querySelector<SVGElement>(`[role="slider"][aria-label="${name}"]`) as SVGElement;

function spotOfRing(label: string): { x: number; y: number } {
  const ring = host.querySelector(`[aria-label="${label}"] .handle-ring`) as SVGElement;
  const box = ring.getBoundingClientRect();
  return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
}

/** A pointer's event on the layer of handles. */
async function pointer(
  type: string,
  { x, y }: { x: number; y: number },
  pointerType = 'mouse',
): Promise<void> {
  const layer = host.querySelector('.handles-layer') as SVGSVGElement;
  // Events made by a test have no pointer that could be captured.
  layer.setPointerCapture = () => undefined;
  const init = {
    clientX: x,
    clientY: y,
    pointerId: 5,
    pointerType,
    button: 0,
    bubbles: true,
    cancelable: true,
  };
  await act(async () => layer.dispatchEvent(new PointerEvent(type, init)));
}

/** Where a pointer on the picture points in the drawing of a body. */
function drawnAt(body: number, { x, y }: { x: number; y: number }): Vec2 {
  const seen = sight.now;
  if (seen === undefined) throw new Error('nothing is to be seen');
  const { left, top, scale } = seen.view;
  return unplace(seen.poses[body] as (typeof seen.poses)[number], {
    x: (x - left) / scale,
    z: (top - y) / scale,
  });
}

describe('handles', () => {
  it('lie on their points and go along with the vehicle', async () => {
    await mount(<Picture />);
    for (const frame of [playhead.frame, playhead.frame + 40]) {
      await act(async () => playhead.show(frame));
      await expect.poll(() => sight.now?.frame).toBe(frame);
      for (const { label, body, at } of handles) {
        const { view, poses } = sight.now as NonNullable<typeof sight.now>;
        const p = place(poses[body] as (typeof poses)[number], at);
        const spot = spotOfRing(label);
        expect(spot.x).toBeCloseTo(view.left + p.x * view.scale, 0);
        expect(spot.y).toBeCloseTo(view.top - p.z * view.scale, 0);
      }
    }
  });

  it('are moved in the drawing of their body by a drag, and kept when let go', async () => {
    await mount(<Picture />);
    const from = spotOfRing('bogie pivot');
    const to = { x: from.x + 37, y: from.y - 21 };
    await pointer('pointerdown', from);
    await pointer('pointermove', { x: from.x + 10, y: from.y - 5 });
    await pointer('pointermove', to);
    const start = drawnAt(0, from);
    const end = drawnAt(0, to);
    const [kind, id, at] = told.at(-1) ?? [];
    expect([kind, id]).toEqual(['move', 'bogie']);
    // Drags of this model go by tenths of a millimetre.
    expect(Math.abs((at?.x ?? 0) - (bogie.anchor.x + end.x - start.x))).toBeLessThanOrEqual(0.051e-3);
    expect(Math.abs((at?.z ?? 0) - (bogie.anchor.z + end.z - start.z))).toBeLessThanOrEqual(0.051e-3);
    expect(spotOfRing('bogie pivot').x).toBeCloseTo(to.x, -0.3);
    await pointer('pointerup', to);
    expect(told.at(-1)).toEqual(['keep', 'bogie', at]);
    expect(said.at(-1)).toMatch(/^bogie pivot kept at x [−\d.]+, z [−\d.]+ mm$/);
    expect(told[0]).toEqual(['pick', 'bogie']);
  });

  it('are put back by Escape in the middle of a drag', async () => {
    await mount(<Picture />);
    const from = spotOfRing('bogie pivot');
    await pointer('pointerdown', from);
    await pointer('pointermove', { x: from.x + 30, y: from.y });
    await act(async () => userEvent.keyboard('{Escape}'));
    expect(told.at(-1)).toEqual(['cancel', 'bogie']);
    await pointer('pointermove', { x: from.x + 60, y: from.y });
    await pointer('pointerup', { x: from.x + 60, y: from.y });
    expect(told.at(-1)).toEqual(['cancel', 'bogie']);
    expect(spotOfRing('bogie pivot').x).toBeCloseTo(from.x, 0);
  });

  it('take a finger farther off than a mouse', async () => {
    await mount(<Picture />);
    const at = spotOfRing('bogie pivot');
    await pointer('pointerdown', { x: at.x - 20, y: at.y }, 'mouse');
    expect(told).toEqual([]);
    await pointer('pointerdown', { x: at.x - 20, y: at.y }, 'touch');
    await pointer('pointermove', { x: at.x, y: at.y }, 'touch');
    expect(told.at(-1)?.slice(0, 2)).toEqual(['move', 'bogie']);
  });

  it('do nothing when pressed and let go', async () => {
    await mount(<Picture />);
    const at = spotOfRing('middle hub');
    await pointer('pointerdown', at);
    await pointer('pointerup', at);
    expect(told.filter(([kind]) => kind !== 'pick')).toEqual([]);
  });

  it('are moved by arrow keys on both axes, kept by Enter, put back by Escape', async () => {
    await mount(<Picture />);
    await act(async () => slider('bogie pivot, forward').focus());
    await act(async () => userEvent.keyboard('{ArrowRight}{ArrowUp}{Shift>}{ArrowRight}{/Shift}'));
    const at = told.at(-1)?.[2];
    expect(at?.x).toBeCloseTo(bogie.anchor.x + 11 * step, 12);
    expect(at?.z).toBeCloseTo(bogie.anchor.z + step, 12);
    const millimetres = ((at?.x ?? 0) * 1000).toFixed(1).replace('-', '−');
    expect(slider('bogie pivot, forward').getAttribute('aria-valuetext')).toBe(`x ${millimetres} mm`);
    await act(async () => userEvent.keyboard('{Enter}'));
    expect(told.at(-1)).toEqual(['keep', 'bogie', at]);
    await act(async () => userEvent.keyboard('{ArrowDown}{Escape}'));
    expect(told.at(-1)).toEqual(['cancel', 'bogie']);
  });

  it('keep a move by keys when the focus goes elsewhere, but not from one axis to the other', async () => {
    await mount(<Picture />);
    await act(async () => slider('bogie pivot, forward').focus());
    await act(async () => userEvent.keyboard('{ArrowRight}'));
    await act(async () => slider('bogie pivot, up').focus());
    expect(told.at(-1)?.[0]).toBe('move');
    await act(async () => slider('middle hub, forward').focus());
    expect(told.some(([kind, id]) => kind === 'keep' && id === 'bogie')).toBe(true);
  });

  it('say why they cannot be where they are wanted', async () => {
    await mount(<Picture wall={bogie.anchor.x + 2.5 * step} />);
    await act(async () => slider('bogie pivot, forward').focus());
    await act(async () => userEvent.keyboard('{ArrowRight}{ArrowRight}'));
    expect(host.querySelector('.handle-problem')).toBeNull();
    await act(async () => userEvent.keyboard('{ArrowRight}'));
    expect(host.querySelector('.handle-problem')?.textContent).toContain('The arm is too short.');
    const ring = host.querySelector('[aria-label="bogie pivot"] .handle-ring') as SVGElement;
    expect(getComputedStyle(ring).strokeDasharray).not.toBe('none');
    expect(slider('bogie pivot, forward').getAttribute('aria-invalid')).toBe('true');
    expect(said.at(-1)).toBe('bogie pivot cannot be there: The arm is too short.');
    await act(async () => userEvent.keyboard('{ArrowLeft}'));
    expect(host.querySelector('.handle-problem')).toBeNull();
  });

  it('are named and sized so that axe finds nothing wrong', async () => {
    await mount(<Picture />);
    await act(async () => slider('bogie pivot, forward').focus());
    const { violations, passes } = await axe.run(host, { rules: { region: { enabled: false } } });
    expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`)).toEqual([]);
    expect(passes.map((p) => p.id)).toContain('aria-input-field-name');
  });

  it('leave turns of the wheel to the picture below', async () => {
    await mount(<Picture />);
    const { from, to } = viewport.window;
    const target = host.querySelector('[aria-label="bogie pivot"] .handle-target') as SVGElement;
    const { x, y } = spotOfRing('bogie pivot');
    await act(async () =>
      target.dispatchEvent(new WheelEvent('wheel', { deltaY: -200, clientX: x, clientY: y, bubbles: true })),
    );
    expect(viewport.window.to - viewport.window.from).toBeLessThan(to - from);
  });
});

/** Colours of the picture, as it is now, by place in CSS px. */
function colours(): (x: number, y: number) => number {
  const canvas = host.querySelector('canvas') as HTMLCanvasElement;
  const copy = document.createElement('canvas');
  copy.width = canvas.width;
  copy.height = canvas.height;
  const draw = copy.getContext('2d', { willReadFrequently: true }) as CanvasRenderingContext2D;
  draw.drawImage(canvas, 0, 0);
  const k = canvas.width / canvas.getBoundingClientRect().width;
  return (x, y) => {
    const [r = 0, g = 0, b = 0] = draw.getImageData(Math.round(x * k), Math.round(y * k), 1, 1).data;
    return (r << 16) | (g << 8) | b;
  };
}

const near = (a: number, b: number) =>
  Math.max(...[16, 8, 0].map((s) => Math.abs(((a >> s) & 255) - ((b >> s) & 255)))) <= 3;

describe('a pivot map', () => {
  it('lies on the vehicle, coloured as wheels of that share are, and goes when it is taken away', async () => {
    const { x, z } = bogie.anchor;
    const reach = mechanism.size;
    const map: PivotMap = {
      body: 0,
      tiles: [
        {
          from: { x: x - reach, z: z - reach },
          to: { x: x + reach, z: z + reach },
          columns: 2,
          rows: 2,
          values: [1.6, 1.6, 1.6, 1.6],
          holds: [0, 0, 0, 0],
        },
      ],
      title: 'least share',
      shown: { unit: '', factor: 1, decimals: 2 },
      scale: 'share',
      criteria: true,
      done: 0.5,
    };
    await mount(<Picture map={map} />);
    const { view, poses } = sight.now as NonNullable<typeof sight.now>;
    // Three quarters up the field, left of its middle: above the arms.
    const p = place(poses[0] as (typeof poses)[number], { x: x - 0.8 * reach, z: z + 0.8 * reach });
    const spot = [view.left + p.x * view.scale, view.top - p.z * view.scale] as const;
    expect(near(colours()(...spot), shareColour(1.6, palettes.light))).toBe(true);
    await act(async () => root.render(<Picture />));
    await expect.poll(() => near(colours()(...spot), shareColour(1.6, palettes.light))).toBe(false);
  });
});

describe('forces in joints', () => {
  it('are drawn on demand: an arrow at the pin that carries most, along its force', async () => {
    const at = (channel: 'pinX' | 'pinZ', index: number) =>
      column(solved.recording, channel, index)[playhead.frame] as number;
    const forces = solved.recording.joints.map((name, i) => ({
      joint: mechanism.joints.find((j) => j.name === name) as (typeof mechanism.joints)[number],
      x: at('pinX', i),
      z: at('pinZ', i),
    }));
    const force = forces.reduce((a, b) => (Math.hypot(b.x, b.z) > Math.hypot(a.x, a.z) ? b : a));
    await mount(<Picture joints />);
    expect(host.querySelector('.scene-legend')?.textContent).toContain('pull');
    const { view, poses } = sight.now as NonNullable<typeof sight.now>;
    const { kind, child, parent, anchor } = force.joint;
    const p = place(poses[kind === 'slide' ? child : parent] as (typeof poses)[number], anchor);
    const size = Math.hypot(force.x, force.z);
    // On the shaft, where a force of this size reaches: the mean standing load is as long as a wheel's radius.
    const { loads } = solved.recording.standing;
    const mean = loads.reduce((a, b) => a + b, 0) / loads.length;
    const back = (0.6 * size * mechanism.size * view.scale) / mean + 9;
    const spot = [
      view.left + p.x * view.scale - (back * force.x) / size,
      view.top - p.z * view.scale + (back * force.z) / size,
    ] as const;
    const ink = numberOf(palettes.light.ink);
    expect(near(colours()(...spot), ink)).toBe(true);
    await act(async () => root.render(<Picture />));
    await expect.poll(() => near(colours()(...spot), ink)).toBe(false);
  });
});

describe('a plot of limits', () => {
  it('shows the curve, says the answer, and can be read as a table', async () => {
    const points = [
      { at: 0.2, limit: 0.02, by: 'grip' },
      { at: 1.2, limit: 0.07, by: 'torque' },
    ];
    await act(async () =>
      root.render(
        <LimitsPlot
          title="highest step up"
          size={{ unit: 'mm', factor: 1000, decimals: 0 }}
          along={{ title: 'grip', unit: '', factor: 1, decimals: 1 }}
          points={points}
          today={{ at: 0.7, size: 0.04 }}
          look={look}
        />,
      ),
    );
    // Its width is known only once it is in the page.
    await act(async () => new Promise((go) => setTimeout(go, 50)));
    expect(host.querySelector('.limit-chart-plot')).not.toBeNull();
    expect(host.querySelector('figcaption')?.textContent).toContain('At grip 0.7 it crosses up to 45 mm');
    const button = host.querySelector('button') as HTMLButtonElement;
    await act(async () => button.click());
    await act(async () => new Promise((go) => setTimeout(go, 50)));
    expect(host.querySelectorAll('tbody tr')).toHaveLength(2);
    expect(host.querySelector('.limit-chart-plot')).toBeNull();
    const { violations } = await axe.run(host, { rules: { region: { enabled: false } } });
    expect(violations.map((v) => v.id)).toEqual([]);
  });
});
