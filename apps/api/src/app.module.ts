import { type DynamicModule, Module } from '@nestjs/common';
import { AccessSettingsModule } from './features/access-settings/access-settings.module.ts';
import { AccountModule } from './features/account/account.module.ts';
import { AlarmsModule } from './features/alarms/alarms.module.ts';
import { AuditModule } from './features/audit/audit.module.ts';
import { BarriersModule } from './features/barriers/barriers.module.ts';
import { BoatsModule } from './features/boats/boats.module.ts';
import { BondsModule } from './features/bonds/bonds.module.ts';
import { CalendarsModule } from './features/calendars/calendars.module.ts';
import { CandidatesModule } from './features/candidates/candidates.module.ts';
import { CatalogueModule } from './features/catalogue/catalogue.module.ts';
import { ChangesModule } from './features/changes/changes.module.ts';
import { ClimateModule } from './features/climate/climate.module.ts';
import { DeliveriesModule } from './features/deliveries/deliveries.module.ts';
import { EventsModule } from './features/events/events.module.ts';
import { FabricsModule } from './features/fabrics/fabrics.module.ts';
import { FilmTimesModule } from './features/film-times/film-times.module.ts';
import { InvitationsModule } from './features/invitations/invitations.module.ts';
import { LiveSettingsModule } from './features/live-settings/live-settings.module.ts';
import { MaterialsModule } from './features/materials/materials.module.ts';
import { MyBoatsModule } from './features/my-boats/my-boats.module.ts';
import { ObservationsModule } from './features/observations/observations.module.ts';
import { PasskeysModule } from './features/passkeys/passkeys.module.ts';
import { PeopleModule } from './features/people/people.module.ts';
import { PlacementsModule } from './features/placements/placements.module.ts';
import { PlanRunsModule } from './features/plan-runs/plan-runs.module.ts';
import { PlansModule } from './features/plans/plans.module.ts';
import { ProceduresModule } from './features/procedures/procedures.module.ts';
import { ProductivityModule } from './features/productivity/productivity.module.ts';
import { ProgramKeysModule } from './features/program-keys/program-keys.module.ts';
import { PushModule } from './features/push/push.module.ts';
import { ReadingsModule } from './features/readings/readings.module.ts';
import { ReportsModule } from './features/reports/reports.module.ts';
import { SecondFactorModule } from './features/second-factor/second-factor.module.ts';
import { SessionModule } from './features/session/session.module.ts';
import { SkillsModule } from './features/skills/skills.module.ts';
import { SlotListsModule } from './features/slot-lists/slot-lists.module.ts';
import { SnagsModule } from './features/snags/snags.module.ts';
import { SpacesModule } from './features/spaces/spaces.module.ts';
import { StocksModule } from './features/stocks/stocks.module.ts';
import { TaskHistoryModule } from './features/task-history/task-history.module.ts';
import { ToolsModule } from './features/tools/tools.module.ts';
import { WorkModule } from './features/work/work.module.ts';
import { YardModule } from './features/yard/yard.module.ts';
import type { Config } from './platform/config/config.ts';
import { PlatformModule } from './platform/platform.module.ts';

/** The concepts of the service, each a module of its own. */
@Module({
  imports: [
    SessionModule,
    AccountModule,
    SecondFactorModule,
    PasskeysModule,
    AccessSettingsModule,
    LiveSettingsModule,
    YardModule,
    PeopleModule,
    InvitationsModule,
    ProgramKeysModule,
    AuditModule,
    SkillsModule,
    SpacesModule,
    ToolsModule,
    StocksModule,
    BarriersModule,
    SlotListsModule,
    DeliveriesModule,
    CatalogueModule,
    BondsModule,
    MaterialsModule,
    FabricsModule,
    ReadingsModule,
    ObservationsModule,
    FilmTimesModule,
    ClimateModule,
    ProceduresModule,
    BoatsModule,
    EventsModule,
    PlanRunsModule,
    PlansModule,
    PlacementsModule,
    CandidatesModule,
    WorkModule,
    SnagsModule,
    TaskHistoryModule,
    AlarmsModule,
    PushModule,
    ChangesModule,
    ReportsModule,
    MyBoatsModule,
    CalendarsModule,
    ProductivityModule,
  ],
})
export class AppModule {}

@Module({})
class RootModule {}

export function rootModule(config: Config): DynamicModule {
  return { module: RootModule, imports: [PlatformModule.with(config), AppModule] };
}
