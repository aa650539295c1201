/**
 * Loaded into api and worker before anything else: when the start program is gone, however it
 * went, they end as on SIGTERM. The channel alone does not keep them alive.
 */
process.once('disconnect', () => process.kill(process.pid, 'SIGTERM'));
process.channel?.unref();
