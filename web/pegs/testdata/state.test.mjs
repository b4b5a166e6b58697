// Laws of the board's state, driven by random gestures and random hands.
import assert from "node:assert/strict";
import { test } from "node:test";
import { apply, busy, empty, end, idle, nextSide, pick, put, read, tap, write } from "./parts.mjs";

const names = [];
for (const row of [1, 2, 3, 4, 5]) for (const column of "ABCDE") names.push(column + row);

// A small generator, so that a failure can be repeated by its seed.
function random(seed) {
  let a = seed >>> 0;
  return (n) => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), a | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) % n;
  };
}

function gesture(r, s) {
  const band = r(s.bands.length + 2) - 1;
  const length = s.bands[band]?.length ?? 3;
  const peg = r(25);
  switch (r(10)) {
    case 0: case 1: return { kind: "stretch", from: end(s) >= 0 && r(3) ? end(s) : r(25), to: peg, fresh: r(4) === 0 };
    case 2: case 3: return { kind: "bend", band, side: r(length + 1), peg };
    case 4: return { kind: "move", band, corner: r(length + 1), to: peg };
    case 5: return { kind: "drop", band, corner: r(length + 1) };
    case 6: return { kind: "choose", band };
    case 7: return r(3) ? { kind: "rest" } : { kind: "clear" };
    case 8: return { kind: "off", band };
    default: return { kind: "undo" };
  }
}

function good(s) {
  assert.ok(s.bands.length <= s.most, "bands within the limit");
  assert.ok(s.chosen >= -1 && s.chosen < s.bands.length, "the chosen band is there");
  assert.ok(!s.open || s.chosen >= 0, "an open band is a chosen one");
  for (const b of s.bands) {
    assert.ok(b.length >= 2, "a band has two pegs");
    assert.equal(new Set(b).size, b.length, "no peg twice in a band");
    assert.ok(b.every((p) => Number.isInteger(p) && p >= 0 && p < 25), "pegs of the board");
  }
  assert.deepEqual(read(write(s.bands, names), names), s.bands, "the text reads back");
}

const moment = (s) => ({ bands: s.bands, chosen: s.chosen, open: s.open });

test("every gesture keeps the rules, and undo gives the state before", () => {
  for (let seed = 1; seed <= 300; seed++) {
    const r = random(seed);
    let s = empty(seed % 3 === 0 ? 1 : 0);
    for (let i = 0; i < 120; i++) {
      const g = gesture(r, s);
      const before = s;
      s = apply(s, g);
      good(s);
      if (g.kind === "undo") continue;
      if (s.past.length > before.past.length) {
        assert.deepEqual(moment(apply(s, { kind: "undo" })), moment(before), `seed ${seed}, step ${i}: ${JSON.stringify(g)}`);
      } else {
        assert.deepEqual(s.bands, before.bands, "a gesture that is not remembered changes no band");
      }
    }
    while (s.past.length) s = apply(s, { kind: "undo" });
    assert.deepEqual(s.bands, [], "undo leads back to the empty board");
    assert.equal(apply(s, { kind: "undo" }).refused, "nothing");
  }
});

test("a gesture that is refused says so and does nothing else", () => {
  let s = apply(empty(1), { kind: "stretch", from: 0, to: 3 });
  s = apply(s, { kind: "stretch", from: 3, to: 13 });
  for (const [g, why] of [
    [{ kind: "stretch", from: 13, to: 3 }, "again"],
    [{ kind: "move", band: 0, corner: 0, to: 13 }, "again"],
    [{ kind: "bend", band: 0, side: 0, peg: 13 }, "again"],
    [{ kind: "stretch", from: 1, to: 2 }, "full"],
    [{ kind: "drop", band: 0, corner: 9 }, "nothing"],
    [{ kind: "off", band: 4 }, "nothing"],
    [{ kind: "move", band: 4, corner: 0, to: 1 }, "nothing"],
  ]) {
    const after = apply(s, g);
    assert.equal(after.refused, why, JSON.stringify(g));
    assert.deepEqual({ ...after, refused: "" }, s);
  }
});

test("taps and drags make the same bands", () => {
  const follow = ([s, h], step) => [step.gestures.reduce(apply, s), step.hand];
  const taps = (...pegs) => pegs.reduce(([s, h], peg) => follow([s, h], tap(s, h, { kind: "peg", peg })), [empty(), idle]);
  const drags = (...pairs) => pairs.reduce(([s, h], [from, to]) => {
    [s, h] = follow([s, h], pick(s, { ...h, held: { kind: "none" } }, from));
    return follow([s, h], put(s, h, to));
  }, [empty(), idle]);
  const peg = (n) => ({ kind: "peg", peg: names.indexOf(n) });
  const at = (n) => names.indexOf(n);
  const byTaps = taps(at("A1"), at("D1"), at("D3"), at("A1"));
  const byDrags = drags([peg("A1"), at("D1")], [peg("D1"), at("D3")], [peg("D3"), at("A1")]);
  assert.equal(write(byTaps[0].bands, names), "A1 D1 D3");
  assert.equal(write(byDrags[0].bands, names), "A1 D1 D3");
  assert.equal(busy(...byTaps), false);
  // Move a corner, then bend a side, by taps.
  let now = follow(byTaps, tap(...byTaps, peg("D3")));
  now = follow(now, tap(...now, peg("E5")));
  assert.equal(write(now[0].bands, names), "A1 D1 E5");
  now = follow(now, nextSide(...now));
  now = follow(now, nextSide(...now));
  now = follow(now, tap(...now, peg("E2")));
  assert.equal(write(now[0].bands, names), "A1 D1 E2 E5");
  // A tap on what is held lets go.
  now = follow(now, tap(...now, peg("A1")));
  now = follow(now, tap(...now, peg("A1")));
  assert.equal(write(now[0].bands, names), "A1 D1 E2 E5");
  assert.equal(busy(...now), false);
});

test("random taps keep the rules", () => {
  for (let seed = 1; seed <= 200; seed++) {
    const r = random(seed);
    let [s, h] = [empty(), idle];
    for (let i = 0; i < 80; i++) {
      const spot = s.bands.length && r(4) === 0
        ? (() => { const band = r(s.bands.length); return { kind: "side", band, side: r(s.bands[band].length) }; })()
        : { kind: "peg", peg: r(25) };
      const step = r(3) ? tap(s, h, spot) : pick(s, h, spot);
      s = step.gestures.reduce(apply, s);
      h = step.hand;
      good(s);
    }
  }
});

test("what is no figure is not read", () => {
  for (const text of ["A1", "A1 A1", "A1 Z9", "A1 B1 /", "/", "A1 B1 A1", "A1  B1"]) assert.equal(read(text, names), null, text);
  assert.deepEqual(read("", names), []);
});
