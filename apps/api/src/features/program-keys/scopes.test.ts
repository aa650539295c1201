import { expect, it } from 'vitest';
import { scopesOf } from './scopes.ts';

it('gives each role the scopes that it can do something with', () => {
  expect([...scopesOf(['owner'])].sort()).toEqual(['manage', 'read']);
  expect([...scopesOf(['builder'])].sort()).toEqual(['read', 'work']);
  expect([...scopesOf(['builder', 'owner'])].sort()).toEqual(['manage', 'read', 'work']);
  expect([...scopesOf(['foreman'])].sort()).toEqual(['manage', 'read', 'work']);
});
