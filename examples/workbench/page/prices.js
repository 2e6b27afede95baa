// The price list, what needs a look, and what can be taken along.

import { $, el } from './dom.js';
import { ask } from './engine.js';

// list shows all prices; chosen is the id of the print that is looked at.
export function showList(list, chosen, choose) {
  const part = $('list');
  part.replaceChildren();
  if (list.conflict) {
    part.append(el('h3', {}, 'No price fits all rules'), el('p', { class: 'conflict' }, list.conflict));
  }
  const dash = (text) => text || '–';
  const rows = list.products.map((p) => el('tr', { class: p.id === chosen ? 'chosen' : '' },
    el('th', { scope: 'row' }, el('button', { type: 'button', class: 'print', 'data-product': p.id, 'aria-pressed': String(p.id === chosen), onclick: () => choose(p.id) }, p.name)),
    el('td', {}, dash(p.today)), el('td', { class: 'price' }, dash(p.price)), el('td', { class: 'change' }, dash(p.change)), el('td', { class: 'range' }, dash(p.range))));
  const head = ['Print', 'today', 'price', 'change', 'may be'].map((h) => el('th', { scope: 'col' }, h));
  part.append(el('table', { class: 'list' }, el('caption', {}, `Prices in ${list.currency}. Choose a print to look at it.`),
    el('thead', {}, el('tr', {}, ...head)), el('tbody', {}, ...rows)));
  if (list.dropped) part.append(el('ul', { class: 'dropped' }, ...list.dropped.map((d) => el('li', {}, d))));
}

// showLook lists the warnings; go leads to where one stands.
export function showLook(list, go) {
  const part = $('look'), all = list.warnings ?? [];
  part.hidden = !all.length;
  const item = (w) => el('li', {}, el('span', {}, sentence(w.text)), ' ', w.path && el('button', { type: 'button', class: 'link', onclick: () => go(w.path) }, w.place || 'Show me'));
  part.replaceChildren(el('h3', {}, 'What needs a look'), el('ul', { class: 'warnings' }, ...all.map(item)));
}

const sentence = (text) => text.charAt(0).toUpperCase() + text.slice(1);

export function showCautions(list) {
  $('cautions').replaceChildren(...list.cautions.map((c) => el('p', {}, c)));
}

// showTake offers files that are made here.
export function showTake(list) {
  $('take').hidden = Boolean(list.conflict);
  const buttons = [['The price list, a page', 'list'], ['The same with all that was worked out', 'full'], ['Price labels for a stand', 'labels'], ['The answer, for programs', 'answer']]
    .map(([name, kind]) => el('button', { type: 'button', 'data-kind': kind, onclick: () => take(kind, '') }, name));
  for (const s of list.sheets ?? []) {
    buttons.push(el('button', { type: 'button', 'data-kind': 'line-sheet', onclick: () => take('line-sheet', s.id) }, `Line sheet for ${s.name}`));
    buttons.push(el('button', { type: 'button', 'data-kind': 'csv', onclick: () => take('csv', s.id) }, `Line sheet for ${s.name}, as a table (CSV)`));
  }
  $('downloads').replaceChildren(...buttons);
}

function take(kind, channel) {
  const file = ask('download', kind, channel);
  if (!file.problems) save(file.name, file.type, file.text);
}

// save hands a text to the browser as a file.
export function save(name, type, text) {
  const url = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const a = el('a', { href: url, download: name });
  document.body.append(a);
  a.click();
  a.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
