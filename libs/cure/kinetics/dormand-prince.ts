/**
 * One ordinary differential equation dy/dx = slope(x, y), integrated with steps that adapt
 * themselves to a tolerance. The pair of orders 5 and 4 is that of J. R. Dormand and
 * P. J. Prince, "A family of embedded Runge-Kutta formulae", J. Comput. Appl. Math. 6 (1980).
 */
type Slope = (x: number, y: number) => number;

/** What one step may be wrong by, as a share of `floor` or of |y|, whichever is more. */
export interface Accuracy {
  readonly tolerance: number;
  readonly floor: number;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A step shrinks or grows by no more than these, and aims below the tolerance. */
const SHRINK = 0.2;
const GROW = 5;
const SAFETY = 0.9;

/** Steps that no longer move x are taken as they are: the slope jumps there. */
const SMALLEST = 1e-14;

/**
 * From (from.x, from.y) on to x = `until`, or to the first y >= `target` if that is sooner; y may
 * not fall. The point where the target is met is found by integrating x over y in the last step
 * (M. Hénon, "On the numerical computation of Poincaré maps", Physica D 5 (1982)), so that it is
 * as exact as every other step.
 */
export function integrate(
  slope: Slope,
  from: Point,
  until: number,
  accuracy: Accuracy,
  target = Infinity,
): Point {
  const { tolerance, floor } = accuracy;
  let { x, y } = from;
  if (y >= target) return { x, y };
  let h = until - x;
  let s1 = slope(x, y);
  while (x < until) {
    const last = x + h >= until;
    if (last) h = until - x;
    const s2 = slope(x + h / 5, y + (h * s1) / 5);
    const s3 = slope(x + (3 * h) / 10, y + h * ((3 / 40) * s1 + (9 / 40) * s2));
    const s4 = slope(x + (4 * h) / 5, y + h * ((44 / 45) * s1 - (56 / 15) * s2 + (32 / 9) * s3));
    const s5 = slope(
      x + (8 * h) / 9,
      y + h * ((19372 / 6561) * s1 - (25360 / 2187) * s2 + (64448 / 6561) * s3 - (212 / 729) * s4),
    );
    const s6 = slope(
      x + h,
      y +
        h *
          ((9017 / 3168) * s1 -
            (355 / 33) * s2 +
            (46732 / 5247) * s3 +
            (49 / 176) * s4 -
            (5103 / 18656) * s5),
    );
    const next =
      y +
      h *
        ((35 / 384) * s1 +
          (500 / 1113) * s3 +
          (125 / 192) * s4 -
          (2187 / 6784) * s5 +
          (11 / 84) * s6);
    const s7 = slope(x + h, next);
    const wrong =
      h *
      ((71 / 57600) * s1 -
        (71 / 16695) * s3 +
        (71 / 1920) * s4 -
        (17253 / 339200) * s5 +
        (22 / 525) * s6 -
        (1 / 40) * s7);
    const share = Math.abs(wrong) / (tolerance * Math.max(floor, Math.abs(y), Math.abs(next)));
    if (share <= 1 || h <= SMALLEST * Math.max(1, Math.abs(x))) {
      if (next >= target)
        return { x: x + across(slope, { x, y }, target, h, tolerance), y: target };
      x = last ? until : x + h;
      y = next;
      s1 = s7;
    }
    h *= Math.min(GROW, Math.max(SHRINK, SAFETY * share ** -0.2));
  }
  return { x, y };
}

/** How much further x is when y, from `from` on, comes to `target` within a step of `width`. */
function across(slope: Slope, from: Point, target: number, width: number, tolerance: number) {
  const inverse: Slope = (y, passed) => 1 / slope(from.x + Math.min(passed, width), y);
  const start = { x: from.y, y: 0 };
  return Math.min(width, integrate(inverse, start, target, { tolerance, floor: width }).y);
}
