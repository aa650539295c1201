import { describe, expect, it } from 'vitest';
import { faultsOf } from '../support/api.ts';
import { smallYardApi } from '../support/small-yard-api.ts';

const { api, tokens } = smallYardApi();
const preview = (body: unknown, id = 'panel') =>
  api.rest('POST', `/yards/small/procedures/${id}/preview`, { token: tokens.foreman, body });

describe('the tasks that a procedure would make', () => {
  it('are sized by a part of the yard, and named as people know things', async () => {
    const { status, body } = await preview({ part: 'hatch' });
    expect(status).toBe(200);
    // 30 + 40 and 15 + 30 a square metre, of 2 m².
    expect(body).toMatchObject({
      version: 1,
      areaM2: 2,
      leastMinutes: 185,
      mostMinutes: 185,
      tasks: [
        { stepId: 'lay-up', workMinutes: 110, skill: 'Laminating', material: 'Slow epoxy' },
        {
          stepId: 'fair',
          workMinutes: 75,
          space: 'Bench bay',
          waits: [{ stepId: 'lay-up', words: 'when the film of “lay-up” is sandable', way: null }],
        },
      ],
    });
  });

  it('are the same by GraphQL, for sizes of one’s own', async () => {
    const { body } = await api.graphql(
      `{ procedurePreview(yardId: "small", id: "panel", input: { areaM2: 5, space: "hull" }) {
        leastMinutes tasks { stepId space } } }`,
      {},
      { token: tokens.foreman },
    );
    expect(body).toEqual({
      data: {
        procedurePreview: {
          leastMinutes: 395,
          tasks: [
            { stepId: 'lay-up', space: 'Open hull' },
            { stepId: 'fair', space: 'Open hull' },
          ],
        },
      },
    });
  });

  it('can be those of a draft, of which nothing is saved', async () => {
    const token = tokens.foreman;
    const { body: stored } = await api.rest('GET', '/yards/small/procedures/panel', { token });
    const { name, steps, links, choices } = stored as {
      steps: { effort: object }[];
    } & typeof stored;
    const [first, ...rest] = steps;
    const effort = { ...first.effort, fixed: 60 };
    const draft = { name, links, choices, steps: [{ ...first, effort }, ...rest] };
    const { body } = await preview({ part: 'hatch', draft });
    expect(body).toMatchObject({ version: null, leastMinutes: 215 });
    expect((await api.rest('GET', '/yards/small/procedures/panel', { token })).body).toEqual(
      stored,
    );
    const wrong = { ...draft, steps: [{ ...first, material: 'honey' }, ...rest] };
    const refused = await preview({ part: 'hatch', draft: wrong });
    expect(refused.status).toBe(422);
    expect(faultsOf(refused.body)).toContainEqual(['draft.steps[0].material', 'yard.reference']);
  });

  it.each([
    [{ part: 'keel' }, 'part', 'yard.reference'],
    [{ areaM2: 1, space: 'moon' }, 'space', 'yard.reference'],
    [{ part: 'hatch', destination: 'moon' }, 'destination', 'yard.reference'],
    [{ areaM2: -1 }, 'areaM2', 'input.field'],
  ])('asked for %j, are refused with the field', async (body, path, code) => {
    const answer = await preview(body);
    expect(answer.status).toBe(422);
    expect(faultsOf(answer.body)).toEqual([[path, code]]);
  });

  it('of a procedure or version that there is not, are not found; strangers find nothing', async () => {
    expect((await preview({ areaM2: 1 }, 'none')).status).toBe(404);
    expect((await preview({ areaM2: 1, version: 7 })).status).toBe(404);
    const stranger = await api.rest('POST', '/yards/small/procedures/panel/preview', {
      token: tokens.stranger,
      body: { areaM2: 1 },
    });
    expect(stranger.status).toBe(404);
  });
});

describe('a film at one temperature', () => {
  const film = (query: string) =>
    api.rest('GET', `/yards/small/materials/epoxy/film?${query}&laidFrom=2026-12-01T10:00:00Z`, {
      token: tokens.foreman,
    });

  it('is asked for in the place of a space, and one of the two is needed', async () => {
    const { body } = await film('celsius=20');
    expect(body).toMatchObject({ spaceId: null });
    expect(body.marks).toEqual((await film('space=bay')).body.marks);
    for (const both of ['', 'space=bay&celsius=20']) {
      const answer = await film(both);
      expect(faultsOf(answer.body)).toEqual([['space', 'input.field']]);
    }
  });
});
