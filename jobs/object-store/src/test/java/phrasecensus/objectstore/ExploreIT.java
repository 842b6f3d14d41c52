package phrasecensus.objectstore;

import java.nio.file.*;
import java.util.*;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ExploreIT {
  @TempDir Path temporary;

  void run(StoreServer server, String... args) throws Exception {
    server.count();
    long t = System.nanoTime();
    ProgramRun run = ProgramRun.of(temporary, server, args);
    System.out.println(String.join(" ", args) + " -> " + run + " " + (System.nanoTime() - t) / 1000000 + " ms, requests " + server.requests().size());
    Map<String, Integer> kinds = new TreeMap<>();
    for (var r : server.requests()) {
      kinds.merge(r.method() + " " + r.key().replaceAll("generation-\\w+", "G").replaceAll("report-[0-9a-f]+", "R").replaceAll("%2F", "/").replaceAll("tables/\\w+/.*?(parquet|$)", "tables/T/p").replaceAll("R/.*", "R/P").replaceAll("[^/]*musicxml", "x.musicxml") + (r.conditional() ? " COND" : ""), 1, Integer::sum);
    }
    kinds.forEach((k, v) -> System.out.println("   " + v + "  " + k));
  }

  @Test
  void explore() throws Exception {
    for (org.jclouds.apis.ApiMetadata backend : List.of(new org.jclouds.blobstore.TransientApiMetadata(), new org.gaul.s3proxy.nio2blob.TransientNio2BlobApiMetadata())) {
      try (StoreServer server = new StoreServer(backend)) {
        server.bucket("corpus");
        server.bucket("studies");
        int n = 0;
        try (var files = Files.list(ProgramRun.ROOT.resolve("sample-corpus/corpus"))) {
          for (Path file : files.sorted().filter(f -> f.toString().endsWith("xml")).limit(40).toList()) {
            server.put("corpus", "solos/" + file.getFileName(), Files.readAllBytes(file));
          }
        }
        server.put("corpus", "solos/solos.csv", Files.readAllBytes(ProgramRun.ROOT.resolve("sample-corpus/corpus/solos.csv")));
        run(server, "study", "s3a://corpus/solos", "--into", "s3a://studies/one", "--debug");
        System.out.println(server.keys("studies", ""));
        run(server, "study", "s3a://corpus/solos", "--into", "s3a://studies/one");
        System.out.println(server.keys("studies", "").size());
        run(server, "export", "s3a://studies/one", "--into", temporary.resolve("e" + backend.getId()).toString());
      }
    }
  }
}
