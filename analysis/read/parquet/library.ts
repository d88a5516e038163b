/** The parts of hyparquet that its readers of single pages are made of. */
export async function loadLibrary() {
  const [{ parquetHeader }, { decompressPage }, schema, { readVarInt }, { compressors }] =
    await Promise.all([
      import('hyparquet/src/column.js'),
      import('hyparquet/src/datapage.js'),
      import('hyparquet/src/schema.js'),
      import('hyparquet/src/thrift.js'),
      import('hyparquet-compressors'),
    ]);
  const { getMaxDefinitionLevel, getMaxRepetitionLevel, getTreePath, isFlatColumn } = schema;
  return {
    parquetHeader,
    decompressPage,
    readVarInt,
    getMaxDefinitionLevel,
    getMaxRepetitionLevel,
    getTreePath,
    isFlatColumn,
    compressors,
  };
}

export type Library = Awaited<ReturnType<typeof loadLibrary>>;
