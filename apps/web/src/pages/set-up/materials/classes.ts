import { api, asked, type Schema } from '../../../api/client.ts';
import { type Resource, useResource } from '../../../api/resource.ts';
import { useYard } from '../../../frame/yard.tsx';

export type MaterialClass = Schema<'MaterialClass'>;

/** They come with the program: read once for all that ask, and for as long as the page is open. */
let known: Promise<readonly MaterialClass[]> | undefined;

export function useClasses(): Resource<readonly MaterialClass[]> {
  const { id: yardId } = useYard();
  return useResource('classes', () => {
    known ??= asked(
      api.GET('/api/v1/yards/{yardId}/catalogue/classes', { params: { path: { yardId } } }),
    ).then(({ items }) => items);
    known.catch(() => {
      known = undefined;
    });
    return known;
  });
}
