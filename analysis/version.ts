export const methodVersion = '1.1';
export const softwareVersion = '0.4.0';
export const softwareName = `Rainledger ${softwareVersion}`;
