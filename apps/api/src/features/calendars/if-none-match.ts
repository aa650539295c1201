/**
 * Whether the caller has what the tag names already (RFC 9110, 13.1.2): tags are compared weakly,
 * since a cache on the way may have made one weak by packing the text.
 */
export function hasAlready(ifNoneMatch: string | undefined, etag: string): boolean {
  if (ifNoneMatch === undefined) return false;
  if (ifNoneMatch.trim() === '*') return true;
  const tags = ifNoneMatch.match(/(?:W\/)?"[\x21\x23-\x7e\x80-\xff]*"/g) ?? [];
  return tags.some((tag) => tag.replace(/^W\//, '') === etag);
}
