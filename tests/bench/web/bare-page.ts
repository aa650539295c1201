/**
 * The least that a page of so many blocks in lanes can be: no library, no state, plain blocks that are
 * placed once; arrows go from block to block and from lane to lane.
 */
export function barePage(blocks: number): string {
  const lanes = 50;
  const each = Math.ceil(blocks / lanes);
  const made = Array.from({ length: blocks }, (_, k) => {
    const place = `left:${String((k % each) * 130)}px;top:${String(Math.floor(k / each) * 56)}px`;
    return `<button data-task="${String(k)}" style="${place}">Block ${String(k)}</button>`;
  });
  return `<!doctype html><title>Blocks</title><style>
    body { margin: 0 }
    [role] { position: relative; overflow: auto; height: 860px }
    button { position: absolute; width: 120px; height: 44px; overflow: hidden }
  </style><div role="region">${made.join('')}</div><script>
    const all = [...document.querySelectorAll('button')];
    const steps = { ArrowRight: 1, ArrowLeft: -1, ArrowDown: ${String(each)}, ArrowUp: ${String(-each)} };
    addEventListener('keydown', (event) => {
      const step = steps[event.key];
      if (step === undefined) return;
      event.preventDefault();
      const next = all[all.indexOf(document.activeElement) + step];
      next?.focus();
    });
  </script>`;
}
