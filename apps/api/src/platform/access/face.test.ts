import { describe, expect, it } from 'vitest';
import { graphqlFace, restFace } from './face.ts';

describe('the face of a call', () => {
  it('is method and route below /api/v1, with braces as in OpenAPI', () => {
    const route = '/api/v1/yards/:yardId/plans/:id/tasks/:taskId/mix-sheet';
    const face = 'GET yards/{yardId}/plans/{id}/tasks/{taskId}/mix-sheet';
    expect(restFace('GET', route)).toBe(face);
    expect(restFace('POST', '/api/v1/sessions')).toBe('POST sessions');
    expect(restFace('GET', '/api/v10/sessions')).toBe('GET /api/v10/sessions');
  });

  it('is the field of GraphQL, of a root or of another type', () => {
    expect(graphqlFace('Mutation', 'createBoat')).toBe('Mutation.createBoat');
    expect(graphqlFace('Boat', 'refits')).toBe('field Boat.refits');
  });
});
