// The tables of the shop: built anew only where the document has other parts, and otherwise only
// filled, so that nobody loses the place at which they write.

import { el, put } from './dom.js';
import { kinds, model } from './model.js';
import { add, child, find, read, set, steps } from './json.js';

const templates = {
  contribution: '"at_least": "5.00"', cost_multiple: '"at_least": "3"', gross_margin: '"at_least": "60%"', net_margin: '"at_least": "10%"',
  market: '"from_quantile": "10%", "to_quantile": "90%"', price: '"at_most": "100.00"', max_change: '"at_most": "25%"', size_ratio: '"at_least": "1.3"', ending: '"ends_in": ["0.00", "0.50"]',
};

export class Tables {
  // commit is called with a new text and what was done to it.
  constructor(place, commit) {
    this.place = place;
    this.commit = commit;
    this.shape = '';
    this.open = new Map();
    this.inputs = new Map();
  }

  // show fills the tables with a text; one that is no JSON leaves them as they were, and closed.
  show(text) {
    this.text = text;
    let sections;
    try {
      sections = model(read(text));
    } catch {
      this.place.inert = true;
      return;
    }
    this.place.inert = false;
    const shape = JSON.stringify(sections, (key, value) => (key === 'value' || key === 'title' ? undefined : value));
    this.values = [];
    collect(sections, this.values);
    if (shape !== this.shape) this.build(sections, shape);
    this.fill();
  }

  build(sections, shape) {
    const focused = document.activeElement?.dataset?.path;
    this.shape = shape;
    this.slots = [];
    this.inputs.clear();
    this.place.replaceChildren(...sections.map((s) => this.fold(s.id, s, true)));
    if (focused) this.inputs.get(focused)?.focus();
  }

  // fill writes what changed. Slots stand in the order in which values are collected.
  fill() {
    this.values.forEach((v, i) => {
      const slot = this.slots[i];
      if (v.title !== undefined) slot(v.title);
      else if (slot.type === 'checkbox') slot.checked = v.value;
      else if (slot.value !== v.value) slot.value = v.value;
      if (slot.size) slot.size = Math.min(Math.max(String(v.value).length + 1, 4), 30); // columns are as wide as they need
    });
  }

  titled(node, prefix = '', suffix = '') {
    this.slots.push((title) => put(node, prefix + title + suffix));
    return node;
  }

  fold(id, part, top) {
    const heading = this.titled(el(top ? 'h3' : 'span'));
    const d = el('details', { class: top ? 'sheet' : 'inside' }, el('summary', {}, heading), ...part.parts.map((p) => this.part(p)));
    d.open = this.open.get(id) ?? part.open ?? false;
    d.addEventListener('toggle', () => this.open.set(id, d.open));
    return d;
  }

  part(p) {
    switch (p.kind) {
      case 'table': return this.table(p);
      case 'fold': return this.fold(p.id, p, false);
      case 'card': return this.card(p);
      case 'fields': return el('div', { class: 'fields' }, ...p.fields.map((f) => this.labelled(f)));
      case 'copy': return el('p', { class: 'adding' }, this.copying(p));
    }
    return this.ruling(p);
  }

  table(p) {
    const head = el('tr', {}, ...p.columns.map((c) => el('th', { scope: 'col' }, c)), el('td', { class: 'last' }));
    const rows = p.rows.map((r) => {
      const label = r.title;
      const cells = r.cells.map((c, i) => el('td', { class: c?.text || i === 0 ? 'word' : '', 'data-label': c && !c.text && (i > 0 || c.label !== 'name') ? p.columns[i] : undefined }, c && (c.text ? c.text : this.input(c, `${label}, ${i === 0 ? 'name' : p.columns[i]}`))));
      return el('tr', { 'data-row': r.path }, ...cells, el('td', { class: 'last' }, r.removable && this.remover(r.path)));
    });
    const caption = p.caption && el('caption', {}, p.caption);
    const table = p.rows.length > 0 && el('table', { class: p.columns.length > 6 ? 'edit many' : 'edit' }, caption, el('thead', {}, head), el('tbody', {}, ...rows));
    const adder = p.copy ? this.copying({ name: p.name, path: p.copy })
      : p.add && el('button', { type: 'button', class: 'small', onclick: () => this.commit(add(this.text, p.add.path, p.add.entry), `one more ${p.name}`) }, `Add ${/^[aeio]/.test(p.name) ? 'an' : 'a'} ${p.name}`);
    return el('div', { class: 'scroll' }, table, adder);
  }

  card(p) {
    const title = this.titled(el('h4'));
    const head = el('div', { class: 'card-head' }, title, p.sub && el('span', { class: 'sub' }, p.sub), p.removable && this.remover(p.path));
    return el('div', { class: 'card', 'data-row': p.path }, head,
      el('div', { class: 'fields' }, ...p.fields.map((f) => this.labelled(f))), ...(p.parts ?? []).map((q) => this.part(q)));
  }

  labelled(f) {
    return el('label', { class: `field ${f.kind}` }, el('span', {}, f.label), this.input(f));
  }

  input(f, label) {
    const common = { 'data-path': f.path, 'aria-label': label, onchange: (e) => this.changed(f, e.target) };
    let e;
    if (f.kind === 'choice') {
      e = el('select', common, ...f.options.map(([value, word]) => el('option', { value }, word)));
    } else if (f.kind === 'yesno') e = el('input', { ...common, type: 'checkbox' });
    else e = el('input', { ...common, autocomplete: 'off', spellcheck: 'false' });
    this.slots.push(e);
    this.inputs.set(f.path, e);
    return e;
  }

  changed(f, e) {
    let value = f.kind === 'yesno' ? e.checked : e.value.trim();
    if (f.kind === 'list' && value !== '') value = value.split(',').map((v) => v.trim()).filter((v) => v);
    if (value === '') value = undefined;
    this.commit(set(this.text, f.path, value), `${f.path} changed`);
  }

  remover(path) {
    return el('button', { type: 'button', class: 'remove', 'aria-label': `Take away ${path}`, title: 'Take away', onclick: () => this.commit(set(this.text, path, undefined), 'taken away') }, '×');
  }

  // copying adds a copy of the last entry under a new id.
  copying(p) {
    return el('button', { type: 'button', class: 'small', onclick: () => {
      const list = find(read(this.text), p.path), last = list.items[list.items.length - 1];
      let entry = this.text.slice(last.start, last.end);
      const id = child(last, 'id')?.value ?? 'new', name = child(last, 'name')?.value ?? id;
      const taken = new Set(list.items.map((n) => child(n, 'id')?.value));
      let n = 2;
      while (taken.has(`${id}-${n}`)) n++;
      entry = set(set(entry, 'id', `${id}-${n}`), 'name', `${name} (${n})`);
      this.commit(add(this.text, p.path, entry), `one more ${p.name}`);
    } }, `Add a ${p.name} like the last`);
  }

  ruling(p) {
    const kind = el('select', { 'aria-label': 'What the new rule is about' }, ...Object.keys(kinds).map((k) => el('option', { value: k }, kinds[k])));
    return el('p', { class: 'adding' }, kind, ' ', el('button', { type: 'button', class: 'small', onclick: () => {
      this.commit(add(this.text, p.path, `{"id": "${p.id}", "rule": "${kind.value}", ${templates[kind.value]}}`), 'one more rule');
    } }, 'Add a rule'));
  }

  // mark shows each problem at its field, and returns those that have none.
  mark(problems) {
    for (const e of this.place.querySelectorAll('.fault')) e.remove();
    for (const e of this.place.querySelectorAll('[aria-invalid]')) {
      e.removeAttribute('aria-invalid');
      e.removeAttribute('aria-describedby');
    }
    problems.forEach((p, i) => {
      const e = this.at(p.path);
      if (!e || e.hasAttribute('aria-invalid')) return;
      const id = `fault-${i}`;
      e.setAttribute('aria-invalid', 'true');
      e.setAttribute('aria-describedby', id);
      e.after(el('span', { class: 'fault', id }, p.text));
      for (let d = e.closest('details'); d; d = d.parentElement.closest('details')) d.open = true;
    });
  }

  // at is the input of a path, or of the nearest field around it.
  at(path) {
    if (!path) return undefined;
    const exact = this.inputs.get(path);
    if (exact) return exact;
    const row = [...this.place.querySelectorAll('[data-row]')].filter((r) => within(path, r.dataset.row)).pop();
    return row?.querySelector('input, select');
  }

  // called is what people call the field of a path; the path where no table has it.
  called(path) {
    const e = this.inputs.get(path);
    return e?.getAttribute('aria-label') ?? (e ? `${e.closest('.card')?.querySelector('h4').textContent ?? ''} ${e.closest('label').firstElementChild.textContent}`.trim() : path);
  }

  // go leads to the field of a path; false where there is none.
  go(path) {
    const e = this.at(path);
    if (!e) return false;
    for (let d = e.closest('details'); d; d = d.parentElement.closest('details')) d.open = true;
    e.focus();
    e.scrollIntoView({ block: 'center' });
    return true;
  }
}

function within(path, row) {
  const a = steps(path), b = steps(row);
  return b.every((s, i) => a[i] === s);
}

// collect lists values and titles in the order in which build makes their slots.
function collect(parts, out) {
  for (const p of parts) {
    if (p.title !== undefined && (p.id !== undefined || p.kind === 'card')) out.push({ title: p.title });
    for (const f of p.fields ?? []) out.push(f);
    for (const r of p.rows ?? []) for (const c of r.cells) if (c && !c.text) out.push(c);
    if (p.parts) collect(p.parts, out);
  }
}
