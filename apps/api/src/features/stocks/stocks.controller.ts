import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Stock, StockInput, StockPage, StockPatch } from './stocks.contract.ts';
import { StocksService } from './stocks.service.ts';

@Controller('yards/:yardId/stocks')
export class StocksController {
  constructor(private readonly stocks: StocksService) {}

  @Get()
  @Answers(200, StockPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Stock>> {
    return this.stocks.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Stock)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Stock> {
    return this.stocks.get(viewer, id);
  }

  @Post()
  @Answers(201, Stock)
  create(@By() viewer: Viewer, @BodyOf(StockInput) input: StockInput): Promise<Stock> {
    return this.stocks.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Stock)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(StockPatch) patch: StockPatch,
  ): Promise<Stock> {
    return this.stocks.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.stocks.remove(viewer, id, revision);
  }
}
