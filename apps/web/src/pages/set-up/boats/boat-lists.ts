import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import { lists, useList } from '../lists/lists.ts';
import { type TasksOfJobs, useTasksOfJobs } from './tasks-of-jobs.ts';

type All<K extends keyof typeof lists> = Awaited<ReturnType<(typeof lists)[K]>> | undefined;

/** What every line of a boat's page names things by; undefined: not read yet. */
interface BoatLists {
  readonly boats: All<'boats'>;
  readonly procedures: All<'procedures'>;
  readonly spaces: All<'spaces'>;
  readonly deliveries: All<'deliveries'>;
  readonly tasks: TasksOfJobs;
  /** The boats are read again: something of them was changed here. */
  readonly again: () => void;
}

const Context = createContext<BoatLists | null>(null);
export const BoatListsProvider = Context.Provider;

/** Read once for the whole page. */
export function useReadLists(boats: All<'boats'>, again: () => void): BoatLists {
  const procedures = useList('procedures').data;
  const spaces = useList('spaces').data;
  const deliveries = useList('deliveries').data;
  const tasks = useTasksOfJobs();
  return { boats, procedures, spaces, deliveries, tasks, again };
}

export function useBoatLists(): BoatLists {
  const found = useContext(Context);
  if (found === null) throw new Error('a part of a boat stands on the page of a boat');
  return found;
}
