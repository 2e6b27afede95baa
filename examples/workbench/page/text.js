// The document as text, with the numbers of its lines.

import { el } from './dom.js';
import { offset } from './json.js';

export class Text {
  constructor(area, lines, commit) {
    this.area = area;
    this.lines = lines;
    this.marked = new Set();
    let timer;
    const send = () => {
      clearTimeout(timer);
      if (area.value !== this.shown) commit(this.shown = area.value, 'the text changed');
    };
    area.addEventListener('input', () => {
      this.number();
      clearTimeout(timer);
      timer = setTimeout(send, 400);
    });
    area.addEventListener('blur', send);
    area.addEventListener('scroll', () => { lines.scrollTop = area.scrollTop; });
  }

  show(text) {
    this.shown = text;
    if (this.area.value !== text) {
      this.area.value = text;
      this.area.scrollLeft = 0;
    }
    this.number();
  }

  mark(problems) {
    this.marked = new Set(problems.map((p) => p.line).filter(Boolean));
    this.number();
  }

  number() {
    const count = this.area.value.split('\n').length;
    const key = `${count} ${[...this.marked]}`;
    if (key === this.key) return;
    this.key = key;
    const parts = [];
    for (let n = 1; n <= count; n++) parts.push(this.marked.has(n) ? el('mark', {}, String(n)) : String(n), '\n');
    this.lines.replaceChildren(...parts);
    this.lines.scrollTop = this.area.scrollTop;
  }

  // go selects the value that begins at a line and a byte of it.
  go(line, column) {
    const part = this.area.closest('details');
    part.open = true;
    const text = this.area.value, at = offset(text, line, column);
    const word = /^("(?:[^"\\\n]|\\.)*"|[^\s,\]}]+)/.exec(text.slice(at, at + 300));
    this.area.focus();
    this.area.setSelectionRange(at, at + (word ? word[0].length : 1));
    const style = getComputedStyle(this.area);
    this.area.scrollTop = Math.max(0, (line - 6) * parseFloat(style.lineHeight));
    this.area.scrollLeft = Math.max(0, (column - 20) * 0.6 * parseFloat(style.fontSize)); // letters are 0.6 of their height wide
    this.lines.scrollTop = this.area.scrollTop;
    part.scrollIntoView({ block: 'nearest' });
  }
}
