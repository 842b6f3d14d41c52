package phrasecensus.readers.robustness;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** Zip archives around scores with the faults that archives have, by a seed alone. */
final class ArchiveMutations {
  private static final byte[] DIRECTORY = {'P', 'K', 1, 2};
  private static final byte[] END = {'P', 'K', 5, 6};

  private ArchiveMutations() {}

  /** A compressed score. */
  static byte[] compressedScore(byte[] score, long seed) {
    Random random = new Random(~seed);
    String root = random.nextInt(6) == 0 ? "gone.xml" : "score.xml";
    String container =
        random.nextInt(8) == 0
            ? "<container>".repeat(random.nextInt(3000))
            : "<container><rootfiles><rootfile full-path=\""
                + root
                + "\"/></rootfiles></container>";
    byte[] inner = random.nextInt(12) == 0 ? compressedScore(score, seed / 2 + 1) : score;
    byte[] archive =
        zip(
            List.of("META-INF/container.xml", "score.xml", "other.txt"),
            List.of(container.getBytes(StandardCharsets.UTF_8), inner, new byte[200]),
            random);
    return damaged(archive, random);
  }

  /** An archive of several files, stored or deflated. */
  static byte[] zip(List<String> names, List<byte[]> contents, Random random) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      for (int i = 0; i < names.size(); i++) {
        ZipEntry entry = new ZipEntry(names.get(i));
        entry.setTimeLocal(LocalDateTime.of(2026, 1, 1, 0, 0));
        if (random.nextInt(3) == 0) {
          CRC32 sum = new CRC32();
          sum.update(contents.get(i));
          entry.setMethod(ZipEntry.STORED);
          entry.setSize(contents.get(i).length);
          entry.setCrc(sum.getValue());
        }
        zip.putNextEntry(entry);
        zip.write(contents.get(i));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  static byte[] damaged(byte[] archive, Random random) {
    byte[] damaged = archive.clone();
    switch (random.nextInt(8)) {
      case 0 -> damaged = Arrays.copyOf(damaged, random.nextInt(damaged.length));
      case 1 -> damaged[random.nextInt(damaged.length)] ^= (byte) (1 << random.nextInt(8));
      case 2 -> overwrite(damaged, DIRECTORY, 46, random);
      case 3 -> overwrite(damaged, END, 22, random);
      case 4 -> damaged[Math.min(damaged.length - 1, 6)] |= 1; // said to be encrypted
      case 5 -> damaged = Arrays.copyOf(damaged, damaged.length + random.nextInt(100_000));
      default -> {
        // A sound archive.
      }
    }
    return damaged;
  }

  /** Puts chance bytes into a record of the archive's list of contents. */
  private static void overwrite(byte[] archive, byte[] signature, int length, Random random) {
    for (int at = 0; at + length <= archive.length; at++) {
      if (Arrays.equals(archive, at, at + 4, signature, 0, 4)) {
        for (int i = 0; i <= random.nextInt(4); i++) {
          archive[at + 4 + random.nextInt(length - 4)] =
              random.nextBoolean() ? (byte) 0xff : (byte) random.nextInt(256);
        }
        if (random.nextBoolean()) {
          return;
        }
      }
    }
  }
}
