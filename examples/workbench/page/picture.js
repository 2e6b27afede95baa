// The picture of what a sale keeps against its price, and a mark on it that follows the slider.

import { ask } from './engine.js';

const svg = 'http://www.w3.org/2000/svg';

let styled = false;

// drawn is a picture of a product as an element; nothing where there is none. The style of all
// pictures comes once, as a sheet of its own: the page allows none inside of elements.
export function drawn(product, kind) {
  const got = ask('picture', product, kind);
  if (!got.svg) return undefined;
  if (!styled) {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(got.style);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
    styled = true;
  }
  return document.importNode(new DOMParser().parseFromString(got.svg, 'image/svg+xml').documentElement, true);
}

export class Picture {
  constructor(place, slider) {
    this.place = place;
    this.slider = slider;
  }

  // show draws a product.
  show(product, step) {
    this.step = Number(step);
    this.line = undefined;
    this.root = product.price && drawn(product.id, 'keeps');
    this.place.hidden = !this.root;
    this.slider.style.marginLeft = this.slider.style.width = '';
    if (!this.root) return;
    this.place.replaceChildren(this.root);
    this.measure(product);
  }

  // measure lays the slider under the axis of the picture.
  measure(product) {
    const d = this.root.dataset, box = this.root.viewBox.baseVal;
    this.from = Number(d.from);
    this.to = Number(d.to);
    this.left = Number(d.left);
    this.right = Number(d.right);
    if (![this.from, this.to, this.left, this.right].every(Number.isFinite) || this.from >= this.to) return;
    const share = (x) => (100 * x) / box.width;
    const first = this.x(product.from * this.step), last = this.x(product.to * this.step);
    this.slider.style.marginLeft = `calc(${share(first)}% - 0.75rem)`;
    this.slider.style.width = `calc(${share(last - first)}% + 1.5rem)`;
    this.line = document.createElementNS(svg, 'line');
    this.line.setAttribute('class', 'hand');
    this.line.setAttribute('y1', box.height * 0.15);
    this.line.setAttribute('y2', box.height * 0.76);
    this.root.append(this.line);
  }

  x(price) {
    return this.left + ((price - this.from) / (this.to - this.from)) * (this.right - this.left);
  }

  mark(v) {
    if (!this.line) return;
    const x = Math.min(Math.max(this.x(Number(v.price)), this.left), this.right).toFixed(1);
    this.line.setAttribute('x1', x);
    this.line.setAttribute('x2', x);
  }
}
