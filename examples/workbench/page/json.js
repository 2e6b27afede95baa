// A document is text. Here it is read so that every value knows where it stands, and changed so
// that nothing but the changed value is written anew.

const most = 100; // levels

// read returns the tree of a text: {kind, start, end} with members, items or value. It throws an
// error with the offset at which the text is no JSON.
export function read(text) {
  const reader = new Reader(text);
  const root = reader.value(0);
  reader.space();
  if (reader.at < text.length) reader.fail();
  return root;
}

class Reader {
  constructor(text) { this.text = text; this.at = 0; }

  fail() {
    const e = new SyntaxError('no JSON');
    e.offset = this.at;
    throw e;
  }

  space() {
    while (this.at < this.text.length && ' \t\r\n'.includes(this.text[this.at])) this.at++;
  }

  value(level) {
    if (level > most) this.fail();
    this.space();
    const c = this.text[this.at];
    if (c === '{') return this.object(level);
    if (c === '[') return this.array(level);
    if (c === '"') return this.string();
    return this.plain();
  }

  string() {
    const start = this.at++;
    while (this.at < this.text.length && this.text[this.at] !== '"') this.at += this.text[this.at] === '\\' ? 2 : 1;
    this.at++;
    try {
      return { kind: 'string', start, end: this.at, value: JSON.parse(this.text.slice(start, this.at)) };
    } catch {
      this.at = start;
      return this.fail();
    }
  }

  plain() {
    const found = /^(true|false|null|-?\d+(\.\d+)?([eE][+-]?\d+)?)/.exec(this.text.slice(this.at, this.at + 400));
    if (!found) return this.fail();
    const start = this.at, word = found[0];
    this.at += word.length;
    const kind = word === 'true' || word === 'false' ? 'yesno' : word === 'null' ? 'null' : 'number';
    return { kind, start, end: this.at, value: kind === 'yesno' ? word === 'true' : word };
  }

  object(level) {
    const node = { kind: 'object', start: this.at++, end: 0, members: [] };
    this.space();
    while (this.text[this.at] !== '}') {
      if (node.members.length) this.comma();
      if (this.text[this.at] !== '"') this.fail();
      const key = this.string();
      this.space();
      if (this.text[this.at++] !== ':') { this.at--; this.fail(); }
      node.members.push({ key: key.value, start: key.start, node: this.value(level + 1) });
      this.space();
    }
    node.end = ++this.at;
    return node;
  }

  array(level) {
    const node = { kind: 'array', start: this.at++, end: 0, items: [] };
    this.space();
    while (this.text[this.at] !== ']') {
      if (node.items.length) this.comma();
      node.items.push(this.value(level + 1));
      this.space();
    }
    node.end = ++this.at;
    return node;
  }

  comma() {
    if (this.text[this.at] !== ',') this.fail();
    this.at++;
    this.space();
  }
}

// steps takes a path such as products[2].bill[0].quantity apart.
export function steps(path) {
  const out = [];
  for (const m of path.matchAll(/\[(\d+)\]|\["((?:[^"\\]|\\.)*)"\]|([^.[\]]+)/g)) {
    out.push(m[1] !== undefined ? Number(m[1]) : m[2] !== undefined ? JSON.parse(`"${m[2]}"`) : m[3]);
  }
  return out;
}

// joined is the path of steps.
export function joined(path) {
  return path.reduce((p, s) => {
    if (typeof s === 'number') return `${p}[${s}]`;
    if (!/^\w[\w-]*$/.test(s)) return `${p}[${JSON.stringify(s)}]`;
    return p ? `${p}.${s}` : s;
  }, '');
}

export function child(node, step) {
  if (!node) return undefined;
  if (typeof step === 'number') return node.items?.[step];
  return node.members?.find((m) => m.key === step)?.node;
}

// find returns the node at a path, or undefined.
export function find(root, path) {
  return steps(path).reduce(child, root);
}

// set writes a value at a path, and the objects on the way to it where there are none. A value of
// undefined takes the field away.
export function set(text, path, value) {
  const root = read(text);
  if (value === undefined) return without(text, path);
  const way = steps(path);
  let node = root, n = 0;
  for (; n < way.length; n++) {
    const next = child(node, way[n]);
    if (!next) break;
    node = next;
  }
  if (n === way.length) {
    return text.slice(0, node.start) + written(value, node.kind) + text.slice(node.end);
  }
  let inner = written(value, 'string');
  for (let k = way.length - 1; k > n; k--) inner = `{${JSON.stringify(way[k])}: ${inner}}`;
  return into(text, node, `${JSON.stringify(way[n])}: ${inner}`);
}

// written keeps a number a number, where the value was one and still reads as one.
function written(value, kind) {
  if (kind === 'number' && /^-?(0|[1-9]\d*)(\.\d+)?$/.test(value)) return value;
  return JSON.stringify(value);
}

// add puts an entry, as text, at the end of the list at a path, and begins the list where there
// is none.
export function add(text, path, entry) {
  const root = read(text), list = find(root, path);
  if (list) return into(text, list, entry);
  const way = steps(path), last = way.pop();
  return into(text, way.reduce(child, root), `${JSON.stringify(last)}: [${entry}]`);
}

// into puts an entry or a member behind the last one of a list or an object, laid out as that is.
function into(text, node, entry) {
  const all = node.members ?? node.items;
  if (!all.length) return text.slice(0, node.start + 1) + entry + text.slice(node.end - 1);
  const last = all[all.length - 1], end = last.node ? last.node.end : last.end;
  const before = /\n[ \t]*$/.exec(text.slice(0, last.start));
  return text.slice(0, end) + ',' + (before ? before[0] : ' ') + entry + text.slice(end);
}

// without takes the value at a path away, with its comma.
export function without(text, path) {
  const root = read(text), way = steps(path), last = way.pop();
  const parent = way.reduce(child, root);
  const all = parent?.members ?? parent?.items ?? [];
  const i = typeof last === 'number' ? last : all.findIndex((m) => m.key === last);
  if (i < 0 || i >= all.length) return text;
  const end = (e) => (e.node ? e.node.end : e.end);
  if (i > 0) return text.slice(0, end(all[i - 1])) + text.slice(end(all[i]));
  if (all.length > 1) return text.slice(0, all[0].start) + text.slice(all[1].start);
  return text.slice(0, parent.start + 1) + text.slice(parent.end - 1);
}

// offset is the place in a text of a line and a byte of it, both counted from 1.
export function offset(text, line, column) {
  let at = 0;
  for (let n = 1; n < line; n++) {
    const end = text.indexOf('\n', at);
    if (end < 0) return text.length;
    at = end + 1;
  }
  let bytes = column - 1;
  while (bytes > 0 && at < text.length && text[at] !== '\n') {
    const c = text.codePointAt(at);
    bytes -= c < 0x80 ? 1 : c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;
    at += c < 0x10000 ? 1 : 2;
  }
  return at;
}
