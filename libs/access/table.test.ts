import { describe, expect, it } from 'vitest';
import { byFace } from './by-face.ts';
import { row, type Rule } from './rule.ts';
import { faces, ruleOf, table } from './table.ts';

const reads = (face: string): boolean => /^(GET |Query\.|Subscription\.|field )/.test(face);
const isJob = ({ faces: all }: Rule): boolean => all.every((face) => face.startsWith('job '));
const operations = table.filter((rule) => !isJob(rule));
const restOf = ({ faces: all }: Rule): string[] => all.filter((face) => /^[A-Z]+ /.test(face));
const named = (rules: readonly Rule[]): string[] => rules.map(({ operation }) => operation);
const inYard = (face: string): boolean => /^[A-Z]+ yards\/\{yardId\}/.test(face);

describe('the table', () => {
  it('has each operation and each face once', () => {
    expect(new Set(named(table)).size).toBe(table.length);
    expect(byFace(table).size).toBe(faces.length);
    expect(faces.length).toBeGreaterThan(250);
    expect(ruleOf('GET yards/{yardId}/boats')?.operation).toBe('boats.list');
    expect(ruleOf('GET yards/{yardId}/secrets')).toBeUndefined();
  });

  it('is refused where two rows dispute a face', () => {
    const twice = [
      row('a.get', ['GET a'], 'anyone', 'service', null),
      row('b.get', ['GET a'], 'signed-in', 'service', null),
    ];
    expect(() => byFace(twice)).toThrow('"GET a" is of a.get and of b.get');
  });

  it('names operations by concept and deed', () => {
    expect(named(table).filter((name) => !/^[a-z-]+\.[a-z-]+$/.test(name))).toEqual([]);
  });

  it('gives an owner the own records and never all', () => {
    const wide = table.filter(({ may }) => typeof may === 'object' && may.owner === 'all');
    expect(named(wide)).toEqual([]);
  });

  it('gives roles in a yard, and nothing else in one', () => {
    const rest = operations.filter((rule) => restOf(rule).length > 0);
    const wrong = rest.filter(
      (rule) => restOf(rule).some(inYard) !== (typeof rule.may === 'object'),
    );
    expect(named(wrong)).toEqual([]);
  });

  it('is about the yard where an address names no record in it', () => {
    const rest = operations.filter((rule) => restOf(rule).some(inYard));
    const wrong = rest.filter((rule) => {
      const namesRecord = restOf(rule).some((face) => /\{(?!yardId\})/.test(face));
      return namesRecord !== (rule.on !== 'yard');
    });
    expect(named(wrong)).toEqual([]);
  });
});

describe('what a program key needs', () => {
  it('is "read" or nothing at all for what only reads, and never "read" for what changes', () => {
    const reading = operations.filter(({ faces: all }) => all.some(reads));
    const changing = operations.filter(({ faces: all }) => !all.some(reads));
    expect(reading.length).toBeGreaterThan(80);
    expect(changing.length).toBeGreaterThan(60);
    expect(named(reading.filter(({ scope }) => scope !== 'read' && scope !== null))).toEqual([]);
    expect(named(changing.filter(({ scope }) => scope === 'read'))).toEqual([]);
  });

  it('is nothing that it could be given for what is no yard’s', () => {
    const open = operations.filter(({ may, scope }) => typeof may === 'string' && scope !== null);
    expect(named(open)).toEqual([]);
  });

  it('is "work" for what a builder may change, "manage" for the foreman alone', () => {
    const keyed = operations.filter(({ scope }) => scope === 'work' || scope === 'manage');
    const wrong = keyed.filter(
      ({ may, scope }) => (typeof may === 'object' && 'builder' in may) !== (scope === 'work'),
    );
    expect(keyed.length).toBeGreaterThan(50);
    expect(named(wrong)).toEqual([]);
  });

  it('is nothing for who belongs to the yard, who may come in and what was changed', () => {
    const human = ['people.create', 'people.update', 'people.remove', 'invitations.invite'];
    for (const operation of human) {
      expect(table.find((rule) => rule.operation === operation)?.scope, operation).toBeNull();
    }
  });
});
