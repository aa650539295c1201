import { useParam } from '../../../frame/params.ts';
import { newId } from '../record/record-page.tsx';
import { NewProcedure } from './new-procedure.tsx';
import { ProcedureList } from './procedure-list.tsx';
import { ProcedurePage } from './procedure-page.tsx';

/** Runs of tasks with the cures between them: all, one, or one that is still to be written. */
export default function Procedures() {
  const id = useParam('id');
  if (id === '') return <ProcedureList />;
  return id === newId ? <NewProcedure /> : <ProcedurePage key={id} id={id} />;
}
