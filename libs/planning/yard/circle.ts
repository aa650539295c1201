/**
 * One circle of a directed graph for each group of nodes that wait for each other, as a
 * list of nodes in order; the first is not repeated. Depth-first, in node order.
 */
export function circles(count: number, arcs: readonly (readonly [number, number])[]): number[][] {
  const out: number[][] = Array.from({ length: count }, () => []);
  for (const [from, to] of arcs) out[from].push(to);
  const state = new Uint8Array(count); // 0 new, 1 on the path, 2 finished
  const path: number[] = [];
  const found: number[][] = [];
  const visit = (node: number): void => {
    state[node] = 1;
    path.push(node);
    for (const next of out[node]) {
      if (state[next] === 0) visit(next);
      else if (state[next] === 1) found.push(path.slice(path.indexOf(next)));
    }
    path.pop();
    state[node] = 2;
  };
  for (let node = 0; node < count; node++) if (state[node] === 0) visit(node);
  return found;
}
