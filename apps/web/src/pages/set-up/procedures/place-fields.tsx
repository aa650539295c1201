import { CheckField, ChoiceField } from '../../../form/fields.tsx';
import { procedures } from '../../../texts/procedures.ts';
import { Rows } from '../rows/rows.tsx';
import page from '../set-up.module.css';
import { HoldFields } from './hold-fields.tsx';
import { OptionalChoice } from '../lists/optional-choice.tsx';
import type { Step } from './procedure-values.ts';
import type { OfStep } from './of-step.ts';
import { Whole } from './whole.tsx';

const texts = procedures.step;
const moves = ['none', 'turn', 'space', 'destination'] as const;

function moveOf(text: string, space: string): Step['move'] {
  if (text === 'turn' || text === 'destination') return { kind: text };
  return text === 'space' ? { kind: 'space', space } : null;
}

/** Where a step is done, what it moves, and what it keeps busy. */
export function PlaceFields(of: OfStep & { readonly others: readonly Step[] }) {
  const { step, put, fault, lists } = of;
  const { move } = step;
  return (
    <>
      <div class={page['cols']}>
        <OptionalChoice
          label={texts.space}
          none={texts.spaceHere}
          value={step.space}
          options={lists.spaces}
          fault={fault('.space')}
          onValue={(space) => put({ space })}
        />
        <ChoiceField
          label={texts.move}
          value={move?.kind ?? 'none'}
          fault={fault('.move') ?? fault('.move.kind')}
          onValue={(text) => put({ move: moveOf(text, lists.spaces[0]?.value ?? '') })}
          options={moves.map((kind) => ({ value: kind, label: texts.moves[kind] }))}
        />
        {move?.kind === 'space' && (
          <ChoiceField
            label={texts.moveTo}
            value={move.space}
            fault={fault('.move.space')}
            onValue={(space) => put({ move: { kind: 'space', space } })}
            options={lists.spaces}
          />
        )}
      </div>
      <CheckField label={texts.onPart} value={step.onPart} onValue={(onPart) => put({ onPart })} />
      <CheckField label={texts.joins} value={step.joins} onValue={(joins) => put({ joins })} />
      {(lists.tools.length > 0 || step.tools.length > 0) && (
        <Rows
          legend={texts.tools}
          what={texts.tool}
          addLabel={texts.addTool}
          rows={step.tools}
          onRows={(tools) => put({ tools: [...tools] })}
          blank={() => ({ tool: lists.tools[0]?.value ?? '', count: 1 })}
          fault={fault('.tools')}
        >
          {(row, change, k) => (
            <>
              <OptionalChoice
                label={texts.tool}
                none={texts.noMaterial}
                value={row.tool === '' ? null : row.tool}
                options={lists.tools}
                fault={fault(`.tools[${String(k)}].tool`)}
                onValue={(tool) => change({ tool: tool ?? '' })}
              />
              <Whole
                label={texts.count}
                min={1}
                value={row.count}
                onValue={(count) => change({ count })}
                fault={fault(`.tools[${String(k)}].count`)}
              />
            </>
          )}
        </Rows>
      )}
      {(lists.tools.length > 0 || step.holds.length > 0) && <HoldFields {...of} />}
    </>
  );
}
