import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readAssets } from '../../analysis/cli/files.ts';
import type { RainGrid } from '../../analysis/rain/grid.ts';
import { sampleGrid } from '../../analysis/rain/sample.ts';
import { seeded } from '../../analysis/sample/random.ts';
import { type Bench, type Line, timed } from './line.ts';

const n = 1_000_000;

/** Bilinear at points by array arithmetic, the points and the grid in memory; prints the median ms of five. */
const numpyText = `
import sys, time, numpy as np
folder, width, height, west, north, sx, sy = sys.argv[1], *map(float, sys.argv[2:])
w, h = int(width), int(height)
v = np.fromfile(folder + '/grid.bin', dtype=np.float32).reshape(h, w).astype(np.float64)
lon, lat = np.fromfile(folder + '/lon.bin'), np.fromfile(folder + '/lat.bin')
def sample():
    x, y = (lon - west) / sx, (lat - north) / sy
    c, r = np.clip(np.floor(x).astype(np.int64), 0, w - 2), np.clip(np.floor(y).astype(np.int64), 0, h - 2)
    fx, fy = x - c, y - r
    return (v[r, c] * (1 - fx) + v[r, c + 1] * fx) * (1 - fy) + (v[r + 1, c] * (1 - fx) + v[r + 1, c + 1] * fx) * fy
times = []
for _ in range(5):
    start = time.perf_counter(); sample(); times.append(time.perf_counter() - start)
print(sorted(times)[2] * 1000)
`;

/** The same by raster::extract. */
const rText = `
suppressMessages(library(raster))
a <- commandArgs(trailingOnly = TRUE); n <- as.numeric(a[2:7])
read <- function(name, what, size, count) readBin(file.path(a[1], name), what, count, size = size)
v <- read('grid.bin', 'numeric', 4, n[1] * n[2])
r <- raster(nrows = n[2], ncols = n[1], xmn = n[3] - n[5] / 2, xmx = n[3] + (n[1] - 0.5) * n[5],
  ymn = n[4] + (n[2] - 0.5) * n[6], ymx = n[4] - n[6] / 2)
values(r) <- v
p <- cbind(read('lon.bin', 'numeric', 8, 1e6), read('lat.bin', 'numeric', 8, 1e6))
t <- sapply(1:3, function(i) system.time(extract(r, p, method = 'bilinear'))['elapsed'])
cat(median(t) * 1000)
`;

/** What another program says, ms; null where it or its library is not there. */
function told(program: string, args: readonly string[]): number | null {
  try {
    const ms = Number(execFileSync(program, args, { encoding: 'utf8', stdio: 'pipe' }));
    return Number.isFinite(ms) ? ms : null;
  } catch {
    return null;
  }
}

/** A million points inside the grid that ships. */
function points(): { longitude: Float64Array; latitude: Float64Array } {
  const random = seeded(11);
  const part = () => random.word() / 2 ** 32;
  return {
    longitude: Float64Array.from({ length: n }, () => -120 + 40 * part()),
    latitude: Float64Array.from({ length: n }, () => 30 + 18 * part()),
  };
}

function others(folder: string, grid: RainGrid, at: ReturnType<typeof points>) {
  writeFileSync(join(folder, 'grid.bin'), grid.mm);
  writeFileSync(join(folder, 'lon.bin'), at.longitude);
  writeFileSync(join(folder, 'lat.bin'), at.latitude);
  const { width, height, west, north, stepX, stepY } = grid;
  const args = [folder, ...[width, height, west, north, stepX, stepY].map(String)];
  return {
    numpy: told('python3', ['-c', numpyText, ...args]),
    raster: told('Rscript', ['-e', rText, ...args]),
  };
}

export async function sampling(bench: Bench): Promise<readonly Line[]> {
  const { grid } = readAssets();
  const at = points();
  const limits = { reachKm: 150, steepRatio: 1.5 };
  const figure = await timed(5, async () => sampleGrid(grid, at.longitude, at.latitude, limits));
  const { numpy, raster } = others(bench.folder, grid, at);
  const line = (name: string, baseline: number | null, ratio: number): Line => ({
    work: '1M points bilinear, steep gradients and fallbacks told',
    figure,
    unit: 'ms',
    baseline,
    baselineName: baseline === null ? `${name}: baseline not at hand` : name,
    goal: { ratio },
  });
  return [line('numpy', numpy, 1), line('R raster::extract', raster, 1 / 20)];
}
