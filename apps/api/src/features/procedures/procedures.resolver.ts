import { Args, ID, Int, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  Procedure,
  ProcedureInput,
  ProcedurePage,
  ProcedureVersionInput,
} from './procedures.contract.ts';
import { ProcedurePreview, ProcedurePreviewInput } from './preview.contract.ts';
import { ProceduresService } from './procedures.service.ts';

@Resolver(() => Procedure)
export class ProceduresResolver {
  constructor(private readonly procedures: ProceduresService) {}

  @Query(() => ProcedurePage, { name: 'procedures' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Procedure>> {
    return this.procedures.list(viewer, page);
  }

  @Query(() => Procedure, { name: 'procedure' })
  get(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @Args('version', { type: () => Int, nullable: true }) version?: number,
  ): Promise<Procedure> {
    return this.procedures.get(viewer, id, version);
  }

  @Query(() => ProcedurePreview, { name: 'procedurePreview' })
  preview(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(ProcedurePreviewInput) input: ProcedurePreviewInput,
  ): Promise<ProcedurePreview> {
    return this.procedures.preview(viewer, id, input);
  }

  @Mutation(() => Procedure, { name: 'createProcedure' })
  create(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @ArgOf(ProcedureInput) input: ProcedureInput,
  ): Promise<Procedure> {
    return this.procedures.create(viewer, input);
  }

  @Mutation(() => Procedure, { name: 'createProcedureVersion' })
  createVersion(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(ProcedureVersionInput) input: ProcedureVersionInput,
  ): Promise<Procedure> {
    return this.procedures.createVersion(viewer, id, input);
  }
}
