import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Schema } from '../api/client.ts';

/** The yard that a page is about. */
export type Yard = Schema<'Yard'>;

export const YardContext = createContext<Yard | null>(null);

/** Inside `InYard` only. */
export function useYard(): Yard {
  const yard = useContext(YardContext);
  if (yard === null) throw new Error('a page of a yard stands inside InYard');
  return yard;
}
