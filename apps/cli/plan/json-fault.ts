const space = /[ \t\n\r]*/y;
const string = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y; // eslint-disable-line no-control-regex -- what RFC 8259 forbids in a string
const scalar = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y;

/**
 * Where a text stops being JSON (RFC 8259), as an offset; its length where it only ends too
 * early. The runtime's own parser does not say where. For text that is JSON, its length.
 */
export function jsonFault(text: string): number {
  let at = 0;
  const skip = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    if (!pattern.test(text)) return false;
    at = pattern.lastIndex;
    return true;
  };
  const sign = (mark: string): boolean => {
    skip(space);
    if (text[at] !== mark) return false;
    at++;
    return true;
  };
  const list = (end: string, item: () => boolean): boolean => {
    if (sign(end)) return true;
    do if (!item()) return false;
    while (sign(','));
    return sign(end);
  };
  const name = (): boolean => {
    skip(space);
    return skip(string) && sign(':');
  };
  const value = (): boolean => {
    if (sign('{')) return list('}', () => name() && value());
    if (sign('[')) return list(']', value);
    return skip(string) || skip(scalar);
  };
  if (value()) skip(space);
  return at;
}
