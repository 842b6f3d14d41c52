package phrasecensus.rows;

import com.ctc.wstx.stax.WstxInputFactory;
import com.fasterxml.aalto.stax.InputFactoryImpl;
import com.sun.management.ThreadMXBean;
import jakarta.xml.bind.JAXBContext;
import jakarta.xml.bind.Unmarshaller;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import javax.xml.stream.util.StreamReaderDelegate;
import org.audiveris.proxymusic.ScorePartwise;
import phrasecensus.music.analysis.AnalysisSettings;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.score.Solo;
import phrasecensus.music.statistic.SoloStatistics;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableSchemas;

/**
 * What reading and analysis cost, beside the routes they could take: a bare scan of the XML, the
 * leanest way to ProxyMusic's objects (a stream that only drops elements, whole scores bound at
 * once), the way from bytes to a solo, on to every statistic of it, and the whole way to the rows
 * of every table. One thread; CPU time and allocation per input byte, best of several rounds in
 * turn.
 *
 * <p>Arguments: a folder, of which the uncompressed scores are read, and the number of rounds.
 */
public final class ReadingBenchmark {
  private static final AnalysisSettings ANALYSIS =
      new AnalysisSettings(
          PhraseRules.rule(
              StudySettings.DEFAULT_PHRASE_RULE, StudySettings.defaults().phraseRuleSettings()),
          true,
          Optional.empty());

  private interface Route {
    Object read(byte[] document) throws Exception;
  }

  private ReadingBenchmark() {}

  public static void main(String[] arguments) throws Exception {
    List<byte[]> documents = documents(Path.of(arguments[0]));
    int rounds = Integer.parseInt(arguments[1]);
    long bytes = documents.stream().mapToLong(document -> document.length).sum();
    XMLInputFactory woodstox = hardened(new WstxInputFactory());
    XMLInputFactory aalto = hardened(new InputFactoryImpl());
    JAXBContext binding = JAXBContext.newInstance(ScorePartwise.class);
    FileRows rows = new FileRows(StudySettings.defaults(), TableSchemas.named("solos"));
    Map<String, Route> scans = new LinkedHashMap<>();
    scans.put("bare scan, Woodstox", document -> scanned(woodstox, document));
    scans.put("bare scan, Aalto", document -> scanned(aalto, document));
    Map<String, Route> bindings = new LinkedHashMap<>();
    bindings.put("leanest ProxyMusic, Woodstox", document -> leanest(binding, woodstox, document));
    bindings.put("leanest ProxyMusic, Aalto", document -> leanest(binding, aalto, document));
    Map<String, Route> ours = new LinkedHashMap<>();
    ours.put("ours, bytes to solo", ReadingBenchmark::solo);
    ours.put("ours, bytes to statistics", ReadingBenchmark::statistics);
    ours.put("ours, bytes to rows of all tables", document -> rows(rows, document));
    Map<String, Route> routes = new LinkedHashMap<>(scans);
    routes.putAll(bindings);
    routes.putAll(ours);

    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    Map<String, Double> seconds = new LinkedHashMap<>();
    Map<String, Double> allocated = new LinkedHashMap<>();
    long results = 0;
    for (int round = 0; round < rounds; round++) {
      for (Map.Entry<String, Route> route : routes.entrySet()) {
        long cpu = threads.getCurrentThreadCpuTime();
        long memory = threads.getCurrentThreadAllocatedBytes();
        for (byte[] document : documents) {
          results += route.getValue().read(document) == null ? 0 : 1;
        }
        double used = (threads.getCurrentThreadCpuTime() - cpu) / 1e9;
        double taken = (double) (threads.getCurrentThreadAllocatedBytes() - memory) / bytes;
        seconds.merge(route.getKey(), used, Math::min);
        allocated.merge(route.getKey(), taken, Math::min);
      }
    }
    System.out.printf(
        Locale.ROOT,
        "%d files, %.1f MB, one thread, best of %d rounds, %d results%n",
        documents.size(),
        bytes / 1e6,
        rounds,
        results);
    for (String route : routes.keySet()) {
      System.out.printf(
          Locale.ROOT,
          "%-34s %6.3f CPU s %7.1f MB/s %6.0f files/s %5.1f bytes allocated a byte%n",
          route,
          seconds.get(route),
          bytes / 1e6 / seconds.get(route),
          documents.size() / seconds.get(route),
          allocated.get(route));
    }
    double scan = least(seconds, scans);
    double lean = least(seconds, bindings);
    for (String route : ours.keySet()) {
      System.out.printf(
          Locale.ROOT,
          "%-34s %.2f of the speed of the fastest bare scan, %.2f of the leanest ProxyMusic%n",
          route,
          scan / seconds.get(route),
          lean / seconds.get(route));
    }
  }

  private static double least(Map<String, Double> seconds, Map<String, Route> routes) {
    return routes.keySet().stream().mapToDouble(seconds::get).min().orElseThrow();
  }

  private static List<byte[]> documents(Path folder) throws IOException {
    List<byte[]> documents = new ArrayList<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file :
          files.filter(path -> path.toString().matches(".*\\.(musicxml|xml)")).sorted().toList()) {
        documents.add(Files.readAllBytes(file));
      }
    }
    return documents;
  }

  private static XMLInputFactory hardened(XMLInputFactory factory) {
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    return factory;
  }

  private static Object scanned(XMLInputFactory factory, byte[] document)
      throws XMLStreamException {
    XMLStreamReader reader = factory.createXMLStreamReader(new ByteArrayInputStream(document));
    int elements = 0;
    while (reader.hasNext()) {
      elements += reader.next() == XMLStreamReader.START_ELEMENT ? 1 : 0;
    }
    reader.close();
    return elements;
  }

  private static Object leanest(JAXBContext binding, XMLInputFactory factory, byte[] document)
      throws Exception {
    XMLStreamReader reader = factory.createXMLStreamReader(new ByteArrayInputStream(document));
    Unmarshaller unmarshaller = binding.createUnmarshaller();
    Object score = unmarshaller.unmarshal(new Dropping(reader), ScorePartwise.class).getValue();
    reader.close();
    return score;
  }

  /** Drops elements that analysis never reads, and checks nothing. */
  private static final class Dropping extends StreamReaderDelegate {
    private static final Set<String> DROPPED =
        Set.of(
            "print",
            "appearance",
            "page-layout",
            "system-layout",
            "credit",
            "beam",
            "stem",
            "lyric",
            "accidental",
            "clef",
            "staff-details",
            "tuplet",
            "dynamics",
            "technical",
            "ornaments",
            "encoding",
            "rights",
            "source",
            "midi-device",
            "frame",
            "figured-bass",
            "play",
            "listen",
            "scaling",
            "part-name-display",
            "part-abbreviation");

    Dropping(XMLStreamReader reader) {
      super(reader);
    }

    @Override
    public int next() throws XMLStreamException {
      int event = super.next();
      while (event == START_ELEMENT && DROPPED.contains(getLocalName())) {
        int depth = 1;
        while (depth > 0) {
          event = super.next();
          depth += event == START_ELEMENT ? 1 : event == END_ELEMENT ? -1 : 0;
        }
        event = super.next();
      }
      return event;
    }
  }

  private static Solo solo(byte[] document) {
    ReadResult result = SoloReader.read(document, "solo.musicxml", ReadSettings.defaults());
    if (!result.isRead()) {
      throw new IllegalStateException(result.reason());
    }
    return result.solo();
  }

  private static Object statistics(byte[] document) {
    return SoloStatistics.withPhrases(SoloAnalyser.analyse(solo(document), ANALYSIS));
  }

  private static Object rows(FileRows rows, byte[] document) {
    FileRows.Result result = rows.of("corpus", "solo.musicxml", document, Map.of());
    if (result.rejection() != null) {
      throw new IllegalStateException(result.rejection());
    }
    return result;
  }
}
