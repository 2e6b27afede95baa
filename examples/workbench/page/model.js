// What of a document stands in tables, and where. A field is {path, label, kind, value}; what is
// not here is edited in the text.

import { child, joined } from './json.js';

const words = {
  at_least: 'at least', at_most: 'at most', price_step: 'prices go in steps of', price_limit: 'no price above', choose: 'of the allowed prices take the',
  contingency: 'for what nobody counted', income_tax: 'income tax', overhead: 'costs of a year', free_from: 'free from', lost_of_started: 'lost of those started',
  yield: 'good of those made', recovery: 'saved of a loss', in_price: 'in the price', on_shipping: 'also on shipping', trade_discount: 'trade discount',
  lost_parcels: 'parcels that get lost', ends_in: 'ends in', per_m2: 'a square metre', from_quantile: 'from the share', to_quantile: 'to the share',
  life_months: 'lasts, months', prints_per_month: 'prints a month', resale: 'sold again for', strength: 'it is', fixed: 'fixed', of: 'of', items: 'prints',
};
// The first of the choices is what no word means too.
const choices = {
  strength: [['', 'a must'], ['prefer', 'a wish']],
  choose: [['', 'nearest to today'], ['least', 'lowest'], ['greatest', 'highest']],
};
const unsaid = { strength: 'must', choose: 'nearest' };
export const kinds = {
  contribution: 'Stays with you', cost_multiple: 'Times the cost of making', gross_margin: 'Gross margin', net_margin: 'Net margin', market: 'What others sell for',
  price: 'The price itself', max_change: 'Change from today', size_ratio: 'Times the next smaller size', ending: 'How prices end',
};

const label = (key) => words[key] ?? key.replaceAll('_', ' ');
const plain = (n) => n && (n.kind === 'string' || n.kind === 'number' || n.kind === 'yesno');
const values = (n) => n?.kind === 'array' && n.items.every((i) => i.kind === 'string' || i.kind === 'number');

// field describes what stands at a path, or could.
function field(path, key, node, name = label(key)) {
  const f = { path: joined(path), label: name, kind: 'text', value: '' };
  if (choices[key]) return { ...f, kind: 'choice', options: choices[key], value: !node || node.value === unsaid[key] ? '' : node.value };
  if (node?.kind === 'yesno') return { ...f, kind: 'yesno', value: node.value };
  if (values(node)) return { ...f, kind: 'list', value: node.items.map((i) => i.value).join(', ') };
  return { ...f, value: plain(node) ? node.value : '' };
}

// fields are the plain values of an object, and of the objects in it.
function fields(node, path, skip = [], prefix = '', level = 0) {
  const out = [];
  for (const m of node?.members ?? []) {
    if (skip.includes(m.key) || m.key === 'note') continue;
    const at = [...path, m.key];
    if (plain(m.node) || values(m.node) && m.node.items.length) out.push(field(at, m.key, m.node, prefix + label(m.key)));
    else if (m.node.kind === 'object' && level < 2) out.push(...fields(m.node, at, [], `${prefix}${label(m.key)}: `, level + 1));
  }
  return out;
}

// table makes a row of each entry of a list, with a column for every plain value that any has.
function table(name, list, path, entry, skip = []) {
  const rows = (list?.items ?? []).map((n, i) => ({ path: joined([...path, i]), all: fields(n, [...path, i], skip) }));
  const columns = [...new Set(rows.flatMap((r) => r.all.map((f) => f.label)))];
  return {
    kind: 'table', name, columns, add: { path: joined(path), entry },
    rows: rows.map((r, i) => ({
      path: r.path, title: `${name} ${i + 1}`, removable: true, cells: columns.map((c) => r.all.find((f) => f.label === c) ?? null),
    })),
  };
}

const entries = (root, key) => child(root, key)?.items ?? [];
const called = (n) => child(n, 'name')?.value || child(n, 'id')?.value || '?';
const fresh = (list, word) => {
  const taken = new Set(list.map((n) => child(n, 'id')?.value));
  for (let i = 1; ; i++) if (!taken.has(`${word}-${i}`)) return `${word}-${i}`;
};

// named is the field of what people call something; until it has a name, that is its id.
function named(n, path) {
  return { path: joined([...path, 'name']), label: 'name', kind: 'text', value: called(n) };
}

function materials(root) {
  const list = entries(root, 'supplies');
  const rows = list.map((n, i) => {
    const at = ['supplies', i], yearly = child(n, 'yearly');
    const cells = yearly
      ? [field([...at, 'yearly', 'printed'], 'printed', child(yearly, 'printed')), field([...at, 'yearly', 'spent'], 'spent', child(yearly, 'spent')), { text: 'a year' }]
      : ['quantity', 'price', 'freight'].map((k) => field([...at, k], k, child(n, k)));
    return { path: joined(at), title: called(n), removable: true, cells: [named(n, at), ...cells] };
  });
  const entry = `{"id": "${fresh(list, 'material')}", "name": "New material", "quantity": "1 piece", "price": "1.00"}`;
  return { id: 'materials', title: 'Materials', open: true, parts: [{
    kind: 'table', name: 'material', columns: ['Material', 'how much', 'costs', 'delivery'], rows, add: { path: 'supplies', entry },
  }] };
}

function prints(root) {
  const list = entries(root, 'products'), supplies = new Map([...entries(root, 'supplies'), ...entries(root, 'machines')].map((n) => [child(n, 'id')?.value, called(n)]));
  const keys = ['price', 'image', 'sheet'].filter((k) => k === 'price' || list.some((n) => child(n, k)));
  const rows = list.map((n, i) => ({
    path: joined(['products', i]), title: called(n), removable: list.length > 1,
    cells: [named(n, ['products', i]), ...keys.map((k) => field(['products', i, k], k, child(n, k)))],
  }));
  const names = { price: 'today', image: 'image', sheet: 'paper' };
  const parts = [{ kind: 'table', name: 'print', columns: ['Print', ...keys.map((k) => names[k])], rows, copy: 'products' }];
  list.forEach((n, i) => {
    const lists = [['What goes into it', child(n, 'bill'), ['products', i, 'bill']]];
    for (const m of child(n, 'packing')?.members ?? []) lists.push([`Packing “${m.key}”`, m.node, ['products', i, 'packing', m.key]]);
    const bills = lists.filter(([, l]) => l?.items?.length).map(([name, l, path]) => bill(name, l, path, supplies));
    parts.push({ kind: 'fold', id: `bill ${i}`, title: `Inside ${called(n)}`, parts: bills });
  });
  return { id: 'prints', title: 'Prints and sizes', open: true, parts };
}

// bill shows the lines of a bill. What a line works out by itself is edited in the text.
function bill(name, list, path, supplies) {
  const rows = list.items.map((n, i) => {
    const at = [...path, i], id = child(n, 'supply')?.value, from = ['cut', 'ink', 'moulding', 'area', 'width_plus_height'].find((k) => child(n, k));
    const quantity = from && !child(n, 'quantity') ? { text: `worked out (${label(from)})` } : field([...at, 'quantity'], 'quantity', child(n, 'quantity'));
    return { path: joined(at), title: supplies.get(id) ?? id, removable: true, cells: [{ text: supplies.get(id) ?? id ?? '?' }, quantity] };
  });
  return { kind: 'table', name, caption: name, columns: ['Material', 'how much'], rows };
}

function making(root) {
  const parts = [];
  for (const [key, name] of [['machines', 'Machine'], ['stages', 'Stage']]) {
    entries(root, key).forEach((n, i) => parts.push({
      kind: 'card', title: `${name}: ${called(n)}`, path: joined([key, i]), fields: fields(n, [key, i], ['id', 'name', 'unit']),
    }));
  }
  return { id: 'making', title: 'Machines and losses', parts };
}

function selling(root) {
  const list = entries(root, 'channels');
  const parts = list.map((n, i) => {
    const at = ['channels', i];
    return {
      kind: 'card', title: called(n), path: joined(at), removable: list.length > 1,
      fields: [named(n, at), ...fields(n, at, ['id', 'name', 'packing'])],
      parts: [
        table('order', child(n, 'orders'), [...at, 'orders'], '{"share": "0%", "items": 1}'),
        table('fee', child(n, 'fees'), [...at, 'fees'], '{"name": "new fee", "rate": "1%"}', ['unit']),
      ],
    };
  });
  parts.push({ kind: 'copy', name: 'way of selling', path: 'channels' });
  return { id: 'selling', title: 'Ways of selling', open: true, parts };
}

function rules(root) {
  const list = entries(root, 'rules');
  const parts = list.map((n, i) => {
    const at = ['rules', i], kind = child(n, 'rule')?.value;
    const all = fields(n, at, ['id', 'rule', 'strength']), short = all.filter((f) => f.kind !== 'list');
    return {
      kind: 'card', title: child(n, 'id')?.value ?? '?', sub: kinds[kind] ?? kind, path: joined(at), removable: true,
      fields: [...short, field([...at, 'strength'], 'strength', child(n, 'strength')), ...all.filter((f) => f.kind === 'list')],
    };
  });
  parts.push({ kind: 'rule', path: 'rules', id: fresh(list, 'rule') });
  return { id: 'rules', title: 'Rules', open: true, parts };
}

function shop(root) {
  const skip = ['version', 'currency', 'choose', 'what_if_board'];
  const all = [field(['currency'], 'currency', child(root, 'currency')), ...fields(root, [], skip), field(['choose'], 'choose', child(root, 'choose'))];
  return { id: 'itself', title: 'The shop itself', parts: [{ kind: 'fields', fields: all }] };
}

// model is the tables of a document, given as its tree.
export function model(root) {
  const all = [materials(root), prints(root), making(root), selling(root), rules(root), shop(root)];
  return all.filter((s) => s.parts.length);
}
