/** A random UUID. A page that came without https has no `crypto.randomUUID`: it draws one itself. */
export function freshKey(): string {
  const { crypto } = globalThis as {
    readonly crypto: Omit<Crypto, 'randomUUID'> & Partial<Crypto>;
  };
  if (crypto.randomUUID !== undefined) return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  // RFC 9562, version 4 of variant 10.
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}
