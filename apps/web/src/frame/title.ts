import { useEffect } from 'preact/hooks';
import { common } from '../texts/common.ts';

/** What the browser calls the page, in its tab and in its history. */
export function useTitle(title: string): void {
  useEffect(() => {
    const before = document.title;
    document.title = `${title} · ${common.product}`;
    return () => {
      document.title = before;
    };
  }, [title]);
}
