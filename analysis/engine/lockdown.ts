/**
 * Statements that close DuckDB to the network, in the order that works: the two SETs alone still let
 * timestamptz functions, LOAD and http paths out.
 */
export const lockdown = [
  'SET autoinstall_known_extensions = false',
  'SET autoload_known_extensions = false',
  'SET enable_external_access = false',
  'SET lock_configuration = true',
];
