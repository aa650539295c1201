import { Module } from '@nestjs/common';
import { ProductivityController } from './productivity.controller.ts';
import { ProductivityResolver } from './productivity.resolver.ts';
import { ProductivityService } from './productivity.service.ts';

@Module({
  controllers: [ProductivityController],
  providers: [ProductivityService, ProductivityResolver],
})
export class ProductivityModule {}
