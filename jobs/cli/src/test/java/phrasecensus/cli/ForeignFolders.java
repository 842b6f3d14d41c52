package phrasecensus.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import phrasecensus.tables.FileList;
import phrasecensus.tables.FolderMarker;

/**
 * Folders as people and other programs leave them, with names and contents that look like this
 * program's and are not: made from a seed, each another.
 */
final class ForeignFolders {
  private static final List<String> NAMES =
      List.of(
          ".lock",
          ".next/build.txt",
          ".left/mine.txt",
          ".previous/old.txt",
          ".report-unfinished/page.html",
          ".report-next/page.html",
          ".phrase-census",
          ".phrase-census-lock",
          ".working-00112233445566778899aabbccddeeff/mine.txt",
          ".working-00112233445566778899aabbccddeeff/complete.sha256",
          ".working-00112233445566778899aabbccddeeff/tables/notes/mine.parquet",
          "generation-00112233445566778899aabbccddeeff/manifest.json",
          "generation-00112233445566778899aabbccddeeff/tables/notes/mine.csv",
          "report-00112233445566778899aabbccddeeff/index.html",
          "current-00000001.json",
          "current-00000007.json",
          "files.sha256",
          "manifest.json",
          "SHA256SUMS",
          "datapackage.json",
          "tables/data.csv",
          "tables/notes/corpus-00000.parquet",
          "tables/notes/part-00000.parquet",
          "report/thesis.txt",
          "report/index.html",
          "report/files.sha256",
          "set-aside-12345678/mine.txt",
          "complete.sha256",
          "previous/mine.txt",
          "parts/corpus-00000.parquet.sha256",
          "csv/notes.csv",
          "parquet/notes.parquet",
          "notebooks/mine.ipynb",
          "export/mine.txt",
          "mine.musicxml",
          "diary.txt");

  private ForeignFolders() {}

  /**
   * Makes a folder.
   *
   * @param study a finished study, of which pieces lie about in some of them
   * @param export an export, likewise
   */
  static Path make(Path folder, long seed, Path study, Path export) throws IOException {
    Random random = new Random(seed);
    Files.createDirectories(folder);
    int files = 1 + random.nextInt(6);
    // Hidden names alone do not keep a study out of a folder.
    List<String> names =
        random.nextInt(3) == 0
            ? NAMES.stream().filter(name -> name.startsWith(".")).toList()
            : NAMES;
    for (int i = 0; i < files; i++) {
      write(folder.resolve(names.get(random.nextInt(names.size()))), random, study, export);
    }
    if (names != NAMES && random.nextBoolean()) {
      return folder;
    }
    switch (random.nextInt(12)) {
      case 0 -> link(folder.resolve("tables"), elsewhere(folder));
      case 1 -> link(folder.resolve("report"), elsewhere(folder));
      case 2 -> link(folder.resolve("manifest.json"), elsewhere(folder).resolve("mine.txt"));
      case 3 -> link(folder.resolve("nowhere"), Path.of("gone"));
      case 4 -> copy(study, folder.resolve("old-study"));
      case 5 -> copy(study, folder.resolve("report/old-study"));
      case 6 -> copy(export, folder.resolve("tables"));
      case 7 -> copy(export, folder.resolve("old-export"));
      case 8, 9 -> {
        // The real thing, in which somebody has worked.
        Path here = random.nextBoolean() ? study : export;
        copy(here, folder);
        write(folder.resolve(NAMES.get(random.nextInt(NAMES.size()))), random, study, export);
        Files.writeString(folder.resolve("mine-" + random.nextInt(100) + ".txt"), "mine");
      }
      default -> {
        write(folder.resolve("mine.musicxml"), random, study, export);
        Files.createDirectories(folder.resolve("empty/inside"));
      }
    }
    if (random.nextInt(4) == 0) {
      // Beside it, where an export works.
      Path beside = folder.resolveSibling("." + folder.getFileName() + ".next");
      write(beside.resolve("mine.txt"), random, study, export);
      write(
          folder
              .resolveSibling("." + folder.getFileName() + "-00112233445566778899aabbccddeeff")
              .resolve("previous/mine.txt"),
          random,
          study,
          export);
    }
    return folder;
  }

  private static void write(Path file, Random random, Path study, Path export) throws IOException {
    if (Files.exists(file) || !isFree(file.getParent())) {
      return;
    }
    Files.createDirectories(file.getParent());
    if (file.toString().endsWith(".musicxml")) {
      Files.copy(SampleCorpus.A_SOLO, file);
      return;
    }
    byte[] content =
        switch (random.nextInt(8)) {
          case 0 -> Files.readAllBytes(study.resolve("manifest.json"));
          case 1 -> Files.readAllBytes(study.resolve(FileList.FILE_NAME));
          case 2 -> Files.readAllBytes(export.resolve("SHA256SUMS"));
          case 3 ->
              "{\"generation\" : \"tables\", \"report\" : \"report\"}"
                  .getBytes(StandardCharsets.UTF_8);
          case 4 -> "{\"program\": \"phrase-census\"}".getBytes(StandardCharsets.UTF_8);
          case 5 -> FolderMarker.working("somewhere-else").bytes();
          case 6 -> new byte[0];
          default -> ("mine " + random.nextLong()).getBytes(StandardCharsets.UTF_8);
        };
    Files.write(file, content);
  }

  /** Whether a folder can be made there. */
  private static boolean isFree(Path folder) {
    for (Path each = folder; each != null; each = each.getParent()) {
      if (Files.exists(each)) {
        return Files.isDirectory(each);
      }
    }
    return true;
  }

  private static Path elsewhere(Path folder) throws IOException {
    Path elsewhere = folder.resolveSibling(folder.getFileName() + "-elsewhere");
    Files.createDirectories(elsewhere);
    Files.writeString(elsewhere.resolve("mine.txt"), "mine");
    return elsewhere;
  }

  private static void link(Path link, Path to) throws IOException {
    if (!Files.exists(link, java.nio.file.LinkOption.NOFOLLOW_LINKS)) {
      Files.createSymbolicLink(link, to);
    }
  }

  private static void copy(Path from, Path to) throws IOException {
    if (!isFree(to)) {
      return;
    }
    try (Stream<Path> paths = Files.walk(from)) {
      for (Path path : paths.toList()) {
        Path copy = to.resolve(from.relativize(path).toString());
        if (Files.isDirectory(path)) {
          if (!isFree(copy)) {
            return;
          }
          Files.createDirectories(copy);
        } else if (!Files.exists(copy, java.nio.file.LinkOption.NOFOLLOW_LINKS)) {
          Files.copy(path, copy);
        }
      }
    }
  }
}
