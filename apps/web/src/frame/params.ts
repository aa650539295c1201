import { useRoute } from 'preact-iso/router';

/** What stands in the page's address under the name; empty where nothing does. */
export function useParam(name: string): string {
  const params: ReadonlyMap<string, string> = new Map(Object.entries(useRoute().params));
  return params.get(name) ?? '';
}
