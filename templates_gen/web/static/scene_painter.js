// Puts filled paths and lines on a canvas and keeps them in order, so that what lies at a place can
// be found again. In forced colours it draws with the colours of the system alone.

import { deeper, levelOf, shaded, towards } from "./scene_colours.js";
import { addRing, grown } from "./scene_paths.js";

const COARSE = 4; // levels of light that are one while it turns
const ROUGH = 8; // the same on a slow computer
const NEAR = 10; // px: how wide a thin line is for a pointer
const [WIDE, SMALL] = [2.5, 1.4]; // px of the line round what is set off
const OUTLINE = "rgb(74 52 52 / 26%)";
const SHADOW = "rgb(70 40 34 / 18%)";

/** @typedef {{part: string, path: Path2D, width: number}} Hit a line where it has a width, px */
/** @typedef {{forced: boolean, accent: string, ground: string, isQuick: boolean, isRough: boolean}} Theme quick while it turns, rough on a slow computer */

export class Painter {
  /**
   * @param {CanvasRenderingContext2D} context
   * @param {Theme} theme
   * @param {(string | null)[]} marked parts that are set off
   */
  constructor(context, theme, marked) {
    this.context = context;
    this.theme = theme;
    this.marked = new Set(marked);
    /** @type {Hit[]} */
    this.hits = [];
    /** @type {Map<string, import("./scene_move.js").Surface>} */
    this.surfaces = new Map();
    /** @type {{part: string, x: number, y: number} | null} what is moved, and how far, px */
    this.ghost = null;
  }

  /** The level of light of a face; while it turns there are fewer, so that more faces are one.
   * @param {number} lit */
  level(lit) {
    const level = levelOf(lit);
    const step = this.theme.isRough ? ROUGH : this.theme.isQuick ? COARSE : 1;
    return Math.round(level / step) * step;
  }

  /**
   * @param {string} part
   * @param {Path2D} path
   * @param {string} colour
   * @param {number} level of light
   */
  fill(part, path, colour, level) {
    this.fillWith(part, path, this.theme.forced ? "Canvas" : shaded(colour, level));
  }

  /** @param {string} part @param {Path2D} path @param {string | CanvasGradient} style */
  fillWith(part, path, style) {
    this.context.fillStyle = style;
    this.context.fill(path);
    this.hits.push({ part, path, width: 0 });
  }

  /**
   * Fill what stands out from a side: its shadow below it, a light edge, a dark one.
   * @param {string} part
   * @param {Path2D} path
   * @param {string} colour
   * @param {number} level
   * @param {number} raised px
   */
  relief(part, path, colour, level, raised) {
    const { context, theme } = this;
    if (raised > 0.3 && !theme.forced && !theme.isQuick) {
      context.save();
      context.translate(raised * 0.4, raised * 0.6);
      context.fillStyle = SHADOW;
      context.fill(path);
      context.restore();
    }
    this.fill(part, path, colour, level);
    if (!theme.isQuick) this.edge(path, deeper(colour, 2), level, 0.6);
  }

  /**
   * A line along a path, a pipe of icing where it is wide.
   * @param {string} part
   * @param {Path2D} path
   * @param {string} colour
   * @param {number} level
   * @param {number} width px
   */
  line(part, path, colour, level, width) {
    const { context, theme } = this;
    context.lineJoin = context.lineCap = "round";
    if (width > 2 && !theme.forced) {
      this.stroke(path, shaded(deeper(colour, 2), level), width + 0.7);
      this.stroke(path, shaded(colour, level), width);
      context.save();
      context.translate(-width * 0.12, -width * 0.2);
      this.stroke(path, shaded(towards(colour, 0.4), level), width * 0.3);
      context.restore();
    } else {
      this.stroke(path, theme.forced ? "CanvasText" : shaded(colour, level), Math.max(width, 1));
    }
    this.hits.push({ part, path, width: Math.max(width, NEAR) });
  }

  /** A thin line on an edge. @param {Path2D} path @param {string} colour @param {number} level @param {number} width px */
  edge(path, colour, level, width) {
    this.stroke(path, this.theme.forced ? "CanvasText" : shaded(colour, level), width);
  }

  /** The outline of a whole body. @param {Path2D} path */
  outline(path) {
    this.stroke(path, this.theme.forced ? "CanvasText" : OUTLINE, 1);
  }

  /** Soft shade about what stands on rings, made only where it is drawn, on what it falls on. Areas
   * that grow are far sooner filled than lines as wide are drawn; what stands there hides the rest.
   * @param {() => number[][]} rings with what stands there on their left as seen from above
   * @param {number} reach px @param {Path2D | null} [ground] */
  shade(rings, reach, ground = null) {
    const { context, theme } = this;
    if (theme.forced || theme.isRough) return;
    const found = rings();
    const steps = theme.isQuick ? 1 : 6;
    context.save();
    if (ground) context.clip(ground);
    context.globalAlpha = 0.24 / steps;
    context.fillStyle = "#462c28";
    for (let step = 1; step <= steps; step += 1) {
      const path = new Path2D();
      for (const ring of found) addRing(path, grown(ring, (reach * step) / steps));
      context.fill(path);
    }
    context.restore();
  }

  /** Darken a face a little towards its foot. @param {Path2D} path @param {number} from px @param {number} to px */
  deepen(path, from, to) {
    if (this.theme.forced) return;
    const shade = this.context.createLinearGradient(0, from, 0, to);
    shade.addColorStop(0, "rgb(255 250 240 / 8%)");
    shade.addColorStop(0.3, "rgb(255 250 240 / 0%)");
    shade.addColorStop(0.6, "rgb(70 40 34 / 0%)");
    shade.addColorStop(1, "rgb(70 40 34 / 9%)");
    this.context.fillStyle = shade;
    this.context.fill(path);
  }

  /** Set a part off where it is marked; what is small, with thin lines.
   * @param {string} part @param {Path2D} path @param {number} [within] px of a line that is drawn over it @param {boolean} [isSmall] */
  mark(part, path, within = 0, isSmall = false) {
    if (!this.marked.has(part)) return;
    const { context, theme, ghost } = this;
    if (ghost?.part === part) {
      context.save();
      context.translate(ghost.x, ghost.y);
      context.setLineDash([7, 4]);
      this.stroke(path, theme.forced ? "Highlight" : theme.accent, 1.5);
      context.restore();
    }
    this.context.lineJoin = "round";
    const wide = isSmall ? SMALL : WIDE;
    this.stroke(path, theme.forced ? "Canvas" : theme.ground, within + 2 * wide);
    this.stroke(path, theme.forced ? "Highlight" : theme.accent, within + wide);
  }

  /** @param {Path2D} path @param {string} style @param {number} width */
  stroke(path, style, width) {
    this.context.strokeStyle = style;
    this.context.lineWidth = width;
    this.context.stroke(path);
  }

  /** What lies at a place of the canvas, the nearest to the eye. @param {number} x @param {number} y */
  at(x, y) {
    const { context } = this;
    for (let index = this.hits.length - 1; index >= 0; index -= 1) {
      const { part, path, width } = this.hits[index];
      context.lineWidth = width;
      if (width ? context.isPointInStroke(path, x, y) : context.isPointInPath(path, x, y)) return part;
    }
    return null;
  }
}
