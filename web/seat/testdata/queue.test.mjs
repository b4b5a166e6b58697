// The queue of showings, with a network and a storage that fail.
import assert from "node:assert/strict";
import { test } from "node:test";
import { newID, Queue } from "./parts.mjs";

class Shelf extends Map {
  constructor() { super(); this.broken = false; }
  get length() { return this.size; }
  key(i) { return [...this.keys()][i] ?? null; }
  getItem(k) { return this.get(k) ?? null; }
  setItem(k, v) { if (this.broken) throw new Error("full"); this.set(k, v); }
  removeItem(k) { this.delete(k); }
}

const showing = (id, made = 1) => ({ id, task: "t", figure: "A1 B2", made });
const settle = () => new Promise((done) => setTimeout(done, 0));

function post(outcomes) {
  const p = { sent: [], heard: [], waits: [] };
  p.send = async (s) => { p.sent.push(s.id); return outcomes.length > 1 ? outcomes.shift() : outcomes[0]; };
  p.changed = (o, s) => p.heard.push(o?.kind ?? "queued");
  p.wait = (ms, then) => p.waits.push([ms, then]);
  return p;
}
const kept = { kind: "kept", answer: { kept: true } };
const later = { kind: "later", answer: { kept: false } };
const refused = { kind: "refused", answer: { kept: false } };

test("a showing is in the storage before it is sent and leaves when it is kept", async () => {
  const shelf = new Shelf();
  const p = post([kept]);
  const send = p.send;
  p.send = (s) => { assert.equal(shelf.size, 1); return send(s); };
  const q = new Queue(shelf, "q.", p);
  q.add(showing("a"));
  await settle();
  assert.deepEqual(p.heard, ["queued", "kept"]);
  assert.equal(shelf.size, 0);
});

test("the network fails: it waits longer and longer, and nothing is lost", async () => {
  const shelf = new Shelf();
  const p = post([later]);
  const q = new Queue(shelf, "q.", p);
  q.add(showing("a"));
  await settle();
  for (let i = 0; i < 8; i++) { p.waits.at(-1)[1](); await settle(); }
  assert.deepEqual(p.waits.map((w) => w[0]).slice(0, 6), [500, 1000, 2000, 4000, 8000, 15000]);
  assert.equal(q.waiting().length, 1);
  const again = post([kept]);
  const reloaded = new Queue(shelf, "q.", again);
  reloaded.kick();
  await settle();
  assert.deepEqual(again.sent, ["a"]);
  assert.equal(shelf.size, 0);
});

test("an old wait does not send beside a new kick", async () => {
  const p = post([later, later, kept]);
  const q = new Queue(new Shelf(), "q.", p);
  q.add(showing("a"));
  await settle();
  q.kick();
  await settle();
  p.waits[0][1]();
  await settle();
  assert.equal(p.sent.length, 2);
  p.waits[1][1]();
  await settle();
  assert.deepEqual(q.waiting(), []);
});

test("a refused showing leaves the queue and the next one goes", async () => {
  const p = post([refused, kept]);
  const q = new Queue(new Shelf(), "q.", p);
  q.add(showing("a", 1));
  q.add(showing("b", 2));
  await settle();
  assert.deepEqual(p.sent, ["a", "b"]);
  assert.deepEqual(q.waiting(), []);
});

test("without storage it is kept in memory, and the page knows that it is fragile", async () => {
  const full = new Shelf();
  full.broken = true;
  for (const shelf of [null, full]) {
    const p = post([later, kept]);
    const q = new Queue(shelf, "q.", p);
    q.add(showing("a"));
    await settle();
    assert.equal(q.fragile, true);
    q.kick();
    await settle();
    assert.equal(q.fragile, false);
    assert.deepEqual(p.sent, ["a", "a"]);
  }
});

test("another pupil's showings on a shared device are not sent", async () => {
  const shelf = new Shelf();
  shelf.setItem("q.other.x", JSON.stringify(showing("x")));
  shelf.setItem("q.mine.broken", "{");
  const p = post([kept]);
  new Queue(shelf, "q.me.", p).kick();
  await settle();
  assert.deepEqual(p.sent, []);
});

test("ids are long and differ", () => {
  const ids = new Set(Array.from({ length: 1000 }, () => newID(16)));
  assert.equal(ids.size, 1000);
  for (const id of ids) assert.match(id, /^[0-9a-f]{32}$/);
});
