/** Text files bundled as strings: the SQL of the method and the tables of data/. */
declare module '*.sql?raw' {
  const text: string;
  export default text;
}
declare module '*.csv?raw' {
  const text: string;
  export default text;
}
