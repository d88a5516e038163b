#!/usr/bin/env node
import { parseArgs } from 'node:util';
import { Refusal } from '../read/outcome.ts';
import { SettingsError } from '../settings.ts';
import { softwareVersion } from '../version.ts';
import { Stopped } from './batch.ts';
import { type Command, commands } from './commands.ts';
import { type Flags, UsageError } from './flags.ts';

/** Exit codes of the contract. */
const DONE = 0;
const REFUSED = 1;
const WRONG_USE = 2;
/** As shells have it for a program that its user stopped. */
const STOPPED = 130;

const print = (line: string): void => void process.stdout.write(`${line}\n`);
const complain = (line: string): void => void process.stderr.write(`${line}\n`);

function overview(): string {
  const width = Math.max(...Object.keys(commands).map((name) => name.length));
  return [
    `Rainledger ${softwareVersion}: ranks buildings by wind-driven rain on walls with no drainage behind the cladding.`,
    'Screening, not diagnosis.',
    '',
    ...Object.entries(commands).map(
      ([name, { summary }]) => `  rainledger ${name.padEnd(width)}  ${summary}`,
    ),
    '',
    'rainledger COMMAND --help tells the options of each.',
  ].join('\n');
}

function usage(name: string, { summary, flags }: Command): string {
  const rows = Object.entries(flags).map(
    ([flag, { value, help, needed }]) =>
      `  --${flag} ${value}`.padEnd(34) + help + (needed ? ' (needed)' : ''),
  );
  return [`rainledger ${name}: ${summary}`, '', ...rows].join('\n');
}

function flagsOf(name: string, command: Command, args: string[]): Flags {
  const options = Object.fromEntries(
    Object.entries(command.flags).map(([flag, { many = false }]) => [
      flag,
      { type: 'string' as const, multiple: many },
    ]),
  );
  let flags: Flags;
  try {
    flags = parseArgs({ args, options, strict: true }).values as Flags;
  } catch (cause) {
    throw new UsageError(`${cause instanceof Error ? cause.message : cause}`);
  }
  const missing = Object.entries(command.flags).filter(
    ([flag, { needed }]) => needed && !flags[flag],
  );
  if (missing.length > 0) {
    throw new UsageError(
      `rainledger ${name} needs ${missing.map(([flag]) => `--${flag}`).join(' and ')}.`,
    );
  }
  return flags;
}

/** Runs one command line and returns its exit code. */
async function main([name, ...args]: string[]): Promise<number> {
  if (name === undefined || name === '--help' || name === '-h') {
    print(overview());
    return name === undefined ? WRONG_USE : DONE;
  }
  const command = commands[name];
  if (!command) {
    complain(`There is no command "${name}".\n\n${overview()}`);
    return WRONG_USE;
  }
  if (args.includes('--help') || args.includes('-h')) {
    print(usage(name, command));
    return DONE;
  }
  try {
    await command.run(flagsOf(name, command, args), print);
    return DONE;
  } catch (cause) {
    return failed(cause);
  }
}

function failed(cause: unknown): number {
  if (cause instanceof UsageError) {
    complain(cause.message);
    return WRONG_USE;
  }
  if (cause instanceof Stopped) {
    complain(cause.message);
    return STOPPED;
  }
  if (cause instanceof Refusal || cause instanceof SettingsError) {
    complain(`${cause.message}\nNothing was written.`);
    return REFUSED;
  }
  throw cause;
}

process.exitCode = await main(process.argv.slice(2));
