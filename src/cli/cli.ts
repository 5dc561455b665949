// Runs one command: answers to standard output, everything else to standard error, and the exit code that says it all.

import { messageOf, ServiceError } from '#errors.ts';
import { withoutSecrets } from '#publish/access/without-secrets.ts';
import { type Arguments, readArguments, type Verb } from './arguments.ts';
import { HELP, SHORT_HELP } from './help.ts';
import { type Command, EXIT, processTerminal, type Terminal } from './terminal.ts';
import { VERSION } from './version.ts';

/** Each is loaded when it is asked for: most need little of the program. */
const COMMANDS: Readonly<Record<Verb, () => Promise<Command>>> = {
  serve: async () => (await import('./serve.ts')).serve,
  windows: async () => (await import('./windows.ts')).windows,
  plan: async () => (await import('./plan.ts')).plan,
  check: async () => (await import('./check.ts')).check,
  'check-config': async () => (await import('./check-config.ts')).checkConfig,
  save: async () => (await import('./save.ts')).save,
  recall: async () => (await import('./recall.ts')).recall,
  key: async () => (await import('./key.ts')).key,
  work: async () => (await import('./work.ts')).work,
  backup: async () => (await import('./backup.ts')).backup,
  restore: async () => (await import('./restore.ts')).restore,
  play: async () => (await import('./play.ts')).play,
};

export async function runCommandLine(
  args: readonly string[],
  terminal: Terminal = processTerminal(),
): Promise<number> {
  let read: Arguments | null = null;
  try {
    read = readArguments(args);
    if (read.options.version) return say(terminal, VERSION);
    if (read.verb === null) return say(terminal, SHORT_HELP);
    if (read.options.help) return say(terminal, HELP[read.verb]);
    const command = await COMMANDS[read.verb]();
    return await command(read, terminal);
  } catch (fault) {
    if (!(fault instanceof ServiceError)) return internalFault(fault, read?.verb ?? null, terminal);
    terminal.err(fault.message);
    if (fault.code === 'usage')
      terminal.err(read?.verb ? `See pitward ${read.verb} --help` : 'See pitward --help');
    return exitCodeOf(fault, read?.verb ?? null);
  }
}

/** A fault of ours is told in a line; whoever mends it asks for all of it. */
function internalFault(fault: unknown, verb: Verb | null, { err, environment }: Terminal): number {
  err(`A fault of the program, and no answer: ${withoutSecrets(messageOf(fault))}`);
  if (environment['LOG_LEVEL'] === 'debug' && fault instanceof Error)
    err(withoutSecrets(String(fault.stack)));
  return verb === 'check' ? EXIT.cannotSay : EXIT.failed;
}

function say(terminal: Terminal, text: string): number {
  terminal.out(text);
  return EXIT.done;
}

function exitCodeOf(fault: ServiceError, verb: Verb | null): number {
  if (fault.code === 'usage' || fault.code === 'bad_query' || fault.code === 'unknown_site')
    return EXIT.usage;
  // Whatever keeps `check` from an answer: nobody can say.
  if (verb === 'check') return EXIT.cannotSay;
  return fault.code.startsWith('source_') || fault.code === 'no_forecast' || fault.code === 'outside_coverage'
    ? EXIT.unreachable
    : EXIT.failed;
}
