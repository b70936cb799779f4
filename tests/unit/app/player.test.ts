import { describe, expect, it } from 'vitest';
import { Player } from '../../../src/app/player.ts';
import { Playhead } from '../../../src/playhead.ts';

/** A player on a reel of 1000 frames at 100 per second, whose ticks come when the test says so. */
function byHand() {
  let waiting: ((now: number) => void) | undefined;
  const playhead = new Playhead();
  const player = new Player(playhead, {
    request: (then) => {
      waiting = then;
      return 1;
    },
    cancel: () => {
      waiting = undefined;
    },
  });
  player.load({ frames: 1000, rate: 100 }, 0);
  let now = 5000;
  const pass = (ms: number) => {
    now += ms;
    const then = waiting;
    waiting = undefined;
    then?.(now);
  };
  return { player, playhead, pass };
}

describe('the player', () => {
  it('moves with the clock, at its speed', () => {
    const { player, playhead, pass } = byHand();
    player.play();
    pass(0);
    pass(100);
    expect(playhead.frame).toBe(10);
    player.speed = 1 / 8;
    for (let i = 0; i < 16; i += 1) pass(10);
    // 160 ms at an eighth are 2 frames: fractions are not lost between ticks.
    expect(playhead.frame).toBe(12);
  });

  it('stands still while paused and goes on from there', () => {
    const { player, playhead, pass } = byHand();
    player.play();
    pass(0);
    pass(100);
    player.pause();
    pass(100);
    expect([playhead.frame, player.playing()]).toEqual([10, false]);
    player.play();
    pass(0);
    pass(50);
    expect(playhead.frame).toBe(15);
  });

  it('stops at the last frame and tells so, then begins again', () => {
    const { player, playhead, pass } = byHand();
    const told: boolean[] = [];
    player.watch(() => told.push(player.playing()));
    player.seek(995);
    player.play();
    pass(0);
    pass(200);
    expect([playhead.frame, player.playing()]).toEqual([999, false]);
    player.play();
    expect(playhead.frame).toBe(0);
    expect(told).toEqual([true, false, true]);
  });

  it('does not leap when the window was hidden for a while', () => {
    const { player, playhead, pass } = byHand();
    player.play();
    pass(0);
    pass(60_000);
    expect(playhead.frame).toBe(25);
  });

  it('goes on from where somebody else has put the playhead', () => {
    const { player, playhead, pass } = byHand();
    player.play();
    pass(0);
    playhead.show(500);
    pass(10);
    expect(playhead.frame).toBe(501);
  });

  it('stays on the reel, also when a shorter one is put in', () => {
    const { player, playhead } = byHand();
    player.step(-5);
    expect(playhead.frame).toBe(0);
    player.step(Number.POSITIVE_INFINITY);
    expect(playhead.frame).toBe(999);
    player.load({ frames: 100, rate: 100 }, playhead.frame);
    expect(playhead.frame).toBe(99);
    player.load({ frames: 0, rate: 100 }, 0);
    player.play();
    expect(player.playing()).toBe(false);
  });

  it('plays frames that are unevenly spaced so that time passes evenly', () => {
    const { player, playhead, pass } = byHand();
    // Ten frames in the first tenth of a second, then one every tenth.
    const times = Float64Array.from([...Array(10).keys()].map((i) => i / 100).concat([0.1, 0.2, 0.3, 0.4]));
    player.load({ frames: times.length, rate: 30, times }, 0);
    player.play();
    pass(0);
    pass(50);
    expect(playhead.frame).toBe(5);
    pass(100);
    expect(times[playhead.frame]).toBeLessThanOrEqual(0.15);
    expect(playhead.frame).toBe(10);
    pass(100);
    expect(playhead.frame).toBe(11);
    for (let i = 0; i < 20; i += 1) pass(10);
    expect(playhead.frame).toBe(13);
    expect(player.playing()).toBe(false);
    player.seek(11);
    player.play();
    pass(0);
    pass(110);
    expect(playhead.frame).toBe(12);
  });
});
