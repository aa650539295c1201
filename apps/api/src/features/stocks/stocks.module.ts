import { Module } from '@nestjs/common';
import { StocksController } from './stocks.controller.ts';
import { StocksResolver } from './stocks.resolver.ts';
import { StocksService } from './stocks.service.ts';

@Module({
  controllers: [StocksController],
  providers: [StocksService, StocksResolver],
  exports: [StocksService],
})
export class StocksModule {}
