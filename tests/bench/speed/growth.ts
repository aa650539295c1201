/**
 * The exponent of the power of x that fits y best: the slope of log y over log x by least squares.
 * NaN of fewer than two different x.
 */
export function exponent(points: readonly (readonly [x: number, y: number])[]): number {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const middle = (k: 0 | 1): number => logs.reduce((sum, point) => sum + point[k], 0) / logs.length;
  const [x, y] = [middle(0), middle(1)];
  const spread = logs.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
  return logs.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0) / spread;
}
