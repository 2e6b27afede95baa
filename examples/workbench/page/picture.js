// The picture of what a sale keeps against its price, and a mark on it that follows the slider.

import { ask } from './engine.js';

const svg = 'http://www.w3.org/2000/svg';

export class Picture {
  constructor(place, slider) {
    this.place = place;
    this.slider = slider;
  }

  // show draws a product. Its style comes once, as a sheet of its own: the page allows none inside
  // of elements.
  show(product, step) {
    this.step = Number(step);
    this.root = undefined;
    const drawn = product.price ? ask('picture', product.id) : {};
    this.place.hidden = !drawn.svg;
    this.slider.style.marginLeft = this.slider.style.width = '';
    if (!drawn.svg) return;
    if (!this.styled) {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(drawn.style);
      document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
      this.styled = true;
    }
    const parsed = new DOMParser().parseFromString(drawn.svg, 'image/svg+xml').documentElement;
    for (const style of parsed.querySelectorAll('style')) style.remove();
    this.root = document.importNode(parsed, true);
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
    this.line.setAttribute('y1', box.height * 0.08);
    this.line.setAttribute('y2', box.height * 0.86);
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
