/*
 * Writes the OpenEXR fixtures with the reference library (OpenEXR 3.1), and for the compressions that lose
 * something the pixels that the same library reads back, as raw little-endian float RGB.
 *   apt-get install libopenexr-dev g++
 *   g++ -std=c++17 make-exr.cpp -I/usr/include/OpenEXR -I/usr/include/Imath \
 *       -lOpenEXR-3_1 -lImath-3_1 -lIex-3_1 -o /tmp/make-exr && /tmp/make-exr
 * Only needed to make them anew: the files are kept beside this one.
 */
#include <OpenEXR/ImfChannelList.h>
#include <OpenEXR/ImfFrameBuffer.h>
#include <OpenEXR/ImfHeader.h>
#include <OpenEXR/ImfInputFile.h>
#include <OpenEXR/ImfMultiPartOutputFile.h>
#include <OpenEXR/ImfOutputFile.h>
#include <OpenEXR/ImfOutputPart.h>
#include <OpenEXR/ImfPartType.h>
#include <OpenEXR/ImfStandardAttributes.h>
#include <OpenEXR/ImfTiledOutputFile.h>
#include <cstdio>
#include <string>
#include <vector>

using namespace OPENEXR_IMF_NAMESPACE;
using namespace IMATH_NAMESPACE;
using std::string;
using std::vector;

static const int WIDTH = 37, HEIGHT = 29;

/* The formula of picture.ts; x and y count from the data window's corner. */
static float light(int x, int y, int c) {
  return (x * (c + 1) % 32) / 16.0f + y / 64.0f + (c == 1 ? 0.125f : 0.0f);
}

struct Picture {
  Compression compression = ZIP_COMPRESSION;
  PixelType type = HALF;
  vector<string> channels = {"R", "G", "B"};
  V2i corner{0, 0};
  V2i display{WIDTH, HEIGHT};
  bool rec2020 = false;
  LineOrder order = INCREASING_Y;
};

static int indexOf(const string &channel) {
  return channel == "R" ? 0 : channel == "G" ? 1 : channel == "B" ? 2 : 3;
}

/* Alpha is one half everywhere; other channels that are not colours hold the formula for c = 3. */
static void fill(vector<float> &plane, const string &channel) {
  plane.resize(WIDTH * HEIGHT);
  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++)
      plane[y * WIDTH + x] = channel == "A" ? 0.5f : light(x, y, indexOf(channel));
}

static void write(const string &name, const Picture &p) {
  Header header(Box2i(V2i(0, 0), p.display - V2i(1, 1)),
                Box2i(p.corner, p.corner + V2i(WIDTH - 1, HEIGHT - 1)));
  header.compression() = p.compression;
  header.lineOrder() = p.order;
  if (p.rec2020)
    addChromaticities(header, Chromaticities(V2f(0.708f, 0.292f), V2f(0.170f, 0.797f),
                                             V2f(0.131f, 0.046f), V2f(0.3127f, 0.3290f)));
  vector<vector<half>> halves(p.channels.size());
  vector<vector<float>> floats(p.channels.size());
  FrameBuffer buffer;
  for (size_t c = 0; c < p.channels.size(); c++) {
    PixelType type = p.channels[c] == "Z" ? FLOAT : p.type;
    header.channels().insert(p.channels[c], Channel(type));
    fill(floats[c], p.channels[c]);
    halves[c].assign(floats[c].begin(), floats[c].end());
    char *base = type == HALF ? (char *)halves[c].data() : (char *)floats[c].data();
    size_t size = type == HALF ? 2 : 4;
    base -= (p.corner.y * WIDTH + p.corner.x) * (long)size;
    buffer.insert(p.channels[c], Slice(type, base, size, size * WIDTH));
  }
  OutputFile out((name + ".exr").c_str(), header);
  out.setFrameBuffer(buffer);
  out.writePixels(HEIGHT);
}

static void readBack(const string &name) {
  InputFile file((name + ".exr").c_str());
  vector<float> rgb(WIDTH * HEIGHT * 3);
  FrameBuffer buffer;
  const char *names[] = {"R", "G", "B"};
  for (int c = 0; c < 3; c++)
    buffer.insert(names[c], Slice(FLOAT, (char *)(rgb.data() + c), 12, 12 * WIDTH));
  file.setFrameBuffer(buffer);
  file.readPixels(0, HEIGHT - 1);
  FILE *out = fopen((name + ".raw").c_str(), "wb");
  fwrite(rgb.data(), 4, rgb.size(), out);
  fclose(out);
}

static void writeTiledAndParts() {
  const char *names[] = {"R", "G", "B"};
  vector<half> planes[3];
  FrameBuffer buffer;
  Header tiled(WIDTH, HEIGHT), part(WIDTH, HEIGHT);
  for (int c = 0; c < 3; c++) {
    vector<float> plane;
    fill(plane, names[c]);
    planes[c].assign(plane.begin(), plane.end());
    tiled.channels().insert(names[c], Channel(HALF));
    part.channels().insert(names[c], Channel(HALF));
    buffer.insert(names[c], Slice(HALF, (char *)planes[c].data(), 2, 2 * WIDTH));
  }
  tiled.setTileDescription(TileDescription(16, 16, ONE_LEVEL));
  TiledOutputFile tiles("tiles.exr", tiled);
  tiles.setFrameBuffer(buffer);
  tiles.writeTiles(0, tiles.numXTiles() - 1, 0, tiles.numYTiles() - 1);
  part.setType(SCANLINEIMAGE);
  vector<Header> headers = {part, part};
  headers[0].setName("left");
  headers[1].setName("right");
  MultiPartOutputFile parts("two-parts.exr", headers.data(), 2);
  for (int i = 0; i < 2; i++) {
    OutputPart out(parts, i);
    out.setFrameBuffer(buffer);
    out.writePixels(HEIGHT);
  }
}

int main() {
  const char *names[] = {"none", "rle", "zips", "zip", "piz", "pxr24", "b44", "b44a", "dwaa", "dwab"};
  for (int c = 0; c < 10; c++) {
    Picture p;
    p.compression = Compression(c);
    string name = string("half-") + names[c];
    write(name, p);
    if (c >= 6) readBack(name);
  }
  for (Compression c : {NO_COMPRESSION, ZIP_COMPRESSION, PIZ_COMPRESSION}) {
    Picture p;
    p.compression = c;
    p.type = FLOAT;
    write(string("float-") + names[c], p);
  }
  Picture p;
  p.rec2020 = true;
  write("rec2020", p);
  p = Picture();
  p.channels = {"R", "G", "B", "A"};
  write("alpha", p);
  p.channels = {"R", "G", "B", "A", "Z", "N.X"};
  write("with-depth", p);
  p.channels = {"Y"};
  write("grey", p);
  p.channels = {"beauty.R", "beauty.G", "beauty.B"};
  write("layers", p);
  p = Picture();
  p.order = DECREASING_Y;
  write("bottom-up", p);
  p = Picture();
  p.corner = V2i(3, 2);
  p.display = V2i(48, 36);
  write("crop", p);
  p.channels = {"R", "G", "B", "A"};
  write("crop-alpha", p);
  p = Picture();
  p.corner = V2i(-4, -3);
  p.display = V2i(20, 20);
  write("overscan", p);
  writeTiledAndParts();
}
