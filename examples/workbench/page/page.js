// The page: one document, its history, and everything that shows it.

import { $, el, say } from './dom.js';
import { ask, start } from './engine.js';
import { beginning, files } from './files.js';
import { add, child, find, joined, read, set } from './json.js';
import { showCautions, showList, showLook, showTake } from './prices.js';
import { Print } from './chosen.js';
import { Tables } from './tables.js';
import { Text } from './text.js';

const kept = 'workbench document'; // its name in the memory of the browser
const most = 20_000_000; // characters of texts that can be gone back to

const past = { texts: [], at: -1 };
let list, chosen;
const tables = new Tables($('tables'), commit);
const text = new Text($('text'), $('lines'), commit);
const print = new Print(writeRule);

// commit makes a text the document, and can be undone.
function commit(next, what) {
  if (next === past.texts[past.at]) return;
  past.texts.length = past.at + 1;
  past.texts.push(next);
  let held = past.texts.reduce((sum, t) => sum + t.length, 0);
  while (held > most && past.texts.length > 2) held -= past.texts.shift().length;
  past.at = past.texts.length - 1;
  show(what);
}

function travel(by) {
  if (!past.texts[past.at + by]) return;
  past.at += by;
  show(by < 0 ? 'undone' : 'done again');
}

// show decides the document and shows all of it.
function show(what) {
  const begun = performance.now();
  const now = past.texts[past.at];
  $('undo').disabled = past.at === 0;
  $('redo').disabled = past.at === past.texts.length - 1;
  tables.show(now);
  text.show(now);
  const answer = ask('decide', now);
  const problems = answer.problems ?? [];
  tables.mark(problems);
  text.mark(problems);
  faults(problems);
  $('prices').classList.toggle('before', problems.length > 0);
  if (!answer.problems) prices(answer);
  performance.measure('quoin:change', { start: begun });
  if (what) say(`${what}. ${problems.length ? `${problems.length} to mend.` : spoken()}`);
  try {
    localStorage.setItem(kept, now);
  } catch { /* a browser that remembers nothing is no fault */ }
}

function prices(answer) {
  list = answer;
  if (!list.products.some((p) => p.id === chosen)) chosen = list.products[0]?.id;
  showList(list, chosen, choose);
  print.show(list, chosen);
  showLook(list, go);
  showTake(list);
  showCautions(list);
}

function choose(id) {
  chosen = id;
  showList(list, chosen, choose);
  print.show(list, chosen);
  document.querySelector(`[data-product="${CSS.escape(id)}"]`)?.focus();
}

function spoken() {
  if (list.conflict) return 'No price fits all rules.';
  return list.products.slice(0, 6).map((p) => `${p.name} ${p.price}`).join(', ');
}

// faults lists what is wrong, each with the way to where it stands.
function faults(problems) {
  const item = (p) => el('li', {}, p.path && el('strong', {}, `${tables.called(p.path)}:`), ' ', p.text, ' ',
    p.line && el('button', { type: 'button', class: 'link', onclick: () => text.go(p.line, p.column) }, `line ${p.line}`));
  $('faults').replaceChildren(...(problems.length
    ? [el('div', { class: 'sheet faults' }, el('h3', {}, problems.length === 1 ? 'One thing to mend' : `${problems.length} things to mend`),
      el('p', {}, list ? 'Until then the prices are those from before.' : ''), el('ul', {}, ...problems.map(item)))] : []));
}

// go leads to the field of a path, or to the text where no table has it.
function go(path) {
  if (tables.go(path)) return;
  const now = past.texts[past.at];
  const node = find(read(now), path);
  if (!node) return;
  const before = now.slice(0, node.start), line = before.split('\n').length;
  text.go(line, new TextEncoder().encode(before.slice(before.lastIndexOf('\n') + 1)).length + 1);
}

// writeRule puts a rule into the document, in place of the one with the same id.
function writeRule(id, rule) {
  let now = past.texts[past.at];
  const i = (child(read(now), 'rules')?.items ?? []).findIndex((r) => child(r, 'id')?.value === id);
  if (i >= 0) now = set(now, joined(['rules', i]), undefined);
  commit(add(now, 'rules', rule), 'written into the rules');
}

function keys(e) {
  if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
  const key = e.key.toLowerCase();
  if (key === 's') {
    e.preventDefault();
    $('save').click();
  }
  const writing = e.target.matches('textarea, input:not([type=range]):not([type=checkbox])');
  if (writing || !['z', 'y'].includes(key)) return;
  e.preventDefault();
  travel(key === 'y' || e.shiftKey ? 1 : -1);
}

// keep has the page kept for when there is no network, and says when a newer one has come.
async function keep() {
  const worker = navigator.serviceWorker;
  if (worker?.controller) {
    worker.addEventListener('controllerchange', () => {
      $('waiting').hidden = false;
      $('waiting').textContent = 'A newer workbench has come. Load the page again to use it; your document stays.';
    });
  }
  await worker?.register('worker.js').catch(() => {});
}

async function begin() {
  const [first] = await Promise.all([beginning('first.json'), beginning('scenario.json'), start()]);
  let stored = null;
  try {
    stored = localStorage.getItem(kept);
  } catch { /* nothing is stored */ }
  files(commit, () => past.texts[past.at]);
  $('undo').addEventListener('click', () => travel(-1));
  $('redo').addEventListener('click', () => travel(1));
  $('print').addEventListener('click', () => globalThis.print());
  document.addEventListener('keydown', keys);
  commit(stored ?? first, '');
  if (!list) $('list').append(el('p', {}, 'There is no price list yet: the document has to be mended first.'));
  $('waiting').hidden = true;
  document.body.classList.add('ready');
  performance.mark('quoin:ready');
  await keep();
}

begin().catch((e) => {
  $('waiting').textContent = `The engine cannot be set up: ${e.message}`;
});
