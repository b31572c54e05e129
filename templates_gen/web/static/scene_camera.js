// Where one looks from, and where a place of the cake is seen: without perspective, so to scale.

const RADIANS = Math.PI / 180;
const FLAT = 0.15; // seen from lower than this, what is farther and what is higher look alike
const EDGE = 1.06; // room round the cake
const LIGHT = [-0.43, -0.5, 0.752]; // from the upper left, in front; length 1

/** @typedef {{x: number, y: number, z: number}} Vector */

export class Camera {
  /**
   * @param {number} turn degrees by which the cake is turned clockwise as seen from above
   * @param {number} tilt degrees above the level: 90 looks straight down
   * @param {number} [middle] how far behind the middle of the drum is what it turns about, mm
   */
  constructor(turn, tilt, middle = 0) {
    this.middle = middle;
    this.turn = turn;
    this.tilt = tilt;
    this.rise = Math.cos(tilt * RADIANS); // how tall an upright is seen
    this.fall = Math.sin(tilt * RADIANS); // how deep what lies level is seen
    this.scale = 1; // px a mm
    this.left = 0;
    this.top = 0;
  }

  /**
   * Set scale and place so that a cake fits a picture as it is turned now.
   * @param {Extent[]} extents
   * @param {number} width px
   * @param {number} height px
   */
  fit(extents, width, height) {
    const seen = extents.map((each) => ({ ...each, ...this.turned(each.right, each.back) }));
    const aside = Math.max(...seen.map((each) => Math.abs(each.right) + each.reach));
    const high = Math.max(...seen.map((each) => each.high * this.rise + (each.back + each.reach) * this.fall));
    const low = Math.min(...seen.map((each) => each.low * this.rise + (each.back - each.reach) * this.fall));
    this.scale = Math.min(width / (2 * aside), height / (high - low)) / EDGE;
    this.left = width / 2;
    this.top = height / 2 + ((high + low) / 2) * this.scale;
  }

  /**
   * How a body that stands somewhere is seen: a map from its frame to the picture.
   * @param {[number, number, number, number]} at
   */
  frame(at) {
    const { right, back } = this.turned(at[0], at[1] - this.middle);
    return new Frame(this, (at[3] - this.turn) * RADIANS, right, back, at[2]);
  }

  /** Where a place is once the cake is turned. @param {number} right @param {number} back */
  turned(right, back) {
    const [cos, sin] = [Math.cos(-this.turn * RADIANS), Math.sin(-this.turn * RADIANS)];
    return { right: cos * right - sin * back, back: sin * right + cos * back };
  }
}

/**
 * @typedef {object} Extent How far something reaches from an upright, and from which height to which.
 * @property {number} right of the middle of all, where the upright is
 * @property {number} back
 * @property {number} reach
 * @property {number} low
 * @property {number} high
 */

class Frame {
  /**
   * @param {Camera} camera
   * @param {number} turn radians, counter-clockwise
   * @param {number} right
   * @param {number} back
   * @param {number} up
   */
  constructor(camera, turn, right, back, up) {
    this.camera = camera;
    this.cos = Math.cos(turn);
    this.sin = Math.sin(turn);
    this.right = right;
    this.back = back;
    this.up = up;
  }

  /** Where x, y, z is seen, px from the left of the picture. @param {number} x @param {number} y */
  x(x, y) {
    return this.camera.left + this.camera.scale * (this.right + this.cos * x - this.sin * y);
  }

  /** The same, px from its top. @param {number} x @param {number} y @param {number} z */
  y(x, y, z) {
    const { rise, fall, scale, top } = this.camera;
    const back = this.back + this.sin * x + this.cos * y;
    return top - scale * ((this.up + z) * rise + back * fall);
  }

  /** Add what goes through places to a path. @param {Path2D} path @param {Float64Array} spots x, y and z by turns @param {boolean} isClosed */
  trace(path, spots, isClosed) {
    // written out: a cake has thousands of them, at every frame of a turn
    const { rise, fall, scale } = this.camera;
    const [left, top] = [this.x(0, 0), this.y(0, 0, 0)];
    const [right, aside] = [scale * this.cos, -scale * this.sin];
    const [near, back, up] = [-scale * fall * this.sin, -scale * fall * this.cos, -scale * rise];
    path.moveTo(left + right * spots[0] + aside * spots[1], top + near * spots[0] + back * spots[1] + up * spots[2]);
    for (let index = 3; index < spots.length; index += 3) {
      const x = spots[index];
      const y = spots[index + 1];
      path.lineTo(left + right * x + aside * y, top + near * x + back * y + up * spots[index + 2]);
    }
    if (isClosed) path.closePath();
  }

  /** How far behind the middle of the cake a place is. @param {number} x @param {number} y */
  depth(x, y) {
    return this.back + this.sin * x + this.cos * y;
  }

  /**
   * The place at a height that is seen at x, y px; seen level, back and front are not told apart.
   * @param {number} x
   * @param {number} y
   * @param {number} height
   */
  onLevel(x, y, height) {
    const { camera } = this;
    const right = (x - camera.left) / camera.scale - this.right;
    const up = (camera.top - y) / camera.scale - (this.up + height) * camera.rise;
    const back = camera.fall > FLAT ? up / camera.fall - this.back : 0;
    return { x: this.cos * right + this.sin * back, y: this.cos * back - this.sin * right };
  }

  /** How much a face is turned to the eye: 1 straight on, below 0 away. @param {Vector} normal */
  faces(normal) {
    const back = this.sin * normal.x + this.cos * normal.y;
    return normal.z * this.camera.fall - back * this.camera.rise;
  }

  /** How brightly a face is lit by soft light, 0 to 1. @param {Vector} normal */
  lit(normal) {
    const right = this.cos * normal.x - this.sin * normal.y;
    const back = this.sin * normal.x + this.cos * normal.y;
    return (1 + LIGHT[0] * right + LIGHT[1] * back + LIGHT[2] * normal.z) / 2;
  }
}

/** @typedef {Frame} SeenFrame */
