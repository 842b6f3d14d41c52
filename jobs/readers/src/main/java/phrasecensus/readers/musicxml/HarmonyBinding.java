package phrasecensus.readers.musicxml;

import java.math.BigInteger;
import java.util.List;
import javax.xml.stream.XMLStreamException;
import org.audiveris.proxymusic.Bass;
import org.audiveris.proxymusic.BassStep;
import org.audiveris.proxymusic.Degree;
import org.audiveris.proxymusic.DegreeAlter;
import org.audiveris.proxymusic.DegreeType;
import org.audiveris.proxymusic.DegreeTypeValue;
import org.audiveris.proxymusic.DegreeValue;
import org.audiveris.proxymusic.Harmony;
import org.audiveris.proxymusic.HarmonyAlter;
import org.audiveris.proxymusic.HarmonyType;
import org.audiveris.proxymusic.Inversion;
import org.audiveris.proxymusic.Kind;
import org.audiveris.proxymusic.KindValue;
import org.audiveris.proxymusic.Numeral;
import org.audiveris.proxymusic.NumeralKey;
import org.audiveris.proxymusic.NumeralMode;
import org.audiveris.proxymusic.NumeralRoot;
import org.audiveris.proxymusic.Offset;
import org.audiveris.proxymusic.Root;
import org.audiveris.proxymusic.RootStep;
import org.audiveris.proxymusic.Step;
import org.audiveris.proxymusic.StyleText;

/** Chord symbols as ProxyMusic's objects; see {@link ScoreBinding}. */
final class HarmonyBinding {
  private final ScoreStream stream;

  HarmonyBinding(ScoreStream stream) {
    this.stream = stream;
  }

  Harmony harmony() throws XMLStreamException {
    Harmony harmony = new Harmony();
    String type = stream.attribute("type");
    harmony.setType(type == null ? null : HarmonyType.fromValue(type));
    stream.next();
    while (stream.isAtStart()) {
      List<Object> chord = harmony.getHarmonyChord();
      switch (stream.name()) {
        case "root" -> chord.add(root());
        case "numeral" -> chord.add(numeral());
        case "function" -> {
          StyleText function = new StyleText();
          function.setValue(stream.text());
          chord.add(function);
        }
        case "kind" -> chord.add(kind());
        case "inversion" -> {
          Inversion inversion = new Inversion();
          inversion.setValue(BigInteger.valueOf(stream.whole()));
          chord.add(inversion);
        }
        case "bass" -> chord.add(bass());
        case "degree" -> chord.add(degree());
        case "offset" -> harmony.setOffset(offset(stream));
        case "staff" -> harmony.setStaff(BigInteger.valueOf(stream.whole()));
        default -> stream.passOver();
      }
    }
    stream.next();
    return harmony;
  }

  private Root root() throws XMLStreamException {
    Root root = new Root();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "root-step" -> {
          RootStep step = new RootStep();
          step.setValue(Step.fromValue(stream.text()));
          root.setRootStep(step);
        }
        case "root-alter" -> root.setRootAlter(alter());
        default -> stream.passOver();
      }
    }
    stream.next();
    return root;
  }

  private Numeral numeral() throws XMLStreamException {
    Numeral numeral = new Numeral();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "numeral-root" -> {
          NumeralRoot root = new NumeralRoot();
          root.setValue(stream.whole());
          numeral.setNumeralRoot(root);
        }
        case "numeral-alter" -> numeral.setNumeralAlter(alter());
        case "numeral-key" -> numeral.setNumeralKey(numeralKey());
        default -> stream.passOver();
      }
    }
    stream.next();
    return numeral;
  }

  private NumeralKey numeralKey() throws XMLStreamException {
    NumeralKey key = new NumeralKey();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "numeral-fifths" -> key.setNumeralFifths(BigInteger.valueOf(stream.whole()));
        case "numeral-mode" -> key.setNumeralMode(NumeralMode.fromValue(stream.text()));
        default -> stream.passOver();
      }
    }
    stream.next();
    return key;
  }

  /** Without a value for a kind outside the standard; see {@link ScoreStream#nextForeignKind}. */
  private Kind kind() throws XMLStreamException {
    Kind kind = new Kind();
    kind.setText(ScoreBinding.token(stream.attribute("text")));
    String value = stream.text();
    kind.setValue(value.isEmpty() ? null : KindValue.fromValue(value));
    return kind;
  }

  private Bass bass() throws XMLStreamException {
    Bass bass = new Bass();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "bass-step" -> {
          BassStep step = new BassStep();
          step.setValue(Step.fromValue(stream.text()));
          bass.setBassStep(step);
        }
        case "bass-alter" -> bass.setBassAlter(alter());
        default -> stream.passOver();
      }
    }
    stream.next();
    return bass;
  }

  private Degree degree() throws XMLStreamException {
    Degree degree = new Degree();
    stream.next();
    while (stream.isAtStart()) {
      switch (stream.name()) {
        case "degree-value" -> {
          DegreeValue value = new DegreeValue();
          value.setValue(BigInteger.valueOf(stream.whole()));
          degree.setDegreeValue(value);
        }
        case "degree-alter" -> {
          DegreeAlter alter = new DegreeAlter();
          alter.setValue(stream.decimal());
          degree.setDegreeAlter(alter);
        }
        case "degree-type" -> {
          DegreeType type = new DegreeType();
          type.setValue(DegreeTypeValue.fromValue(stream.text()));
          degree.setDegreeType(type);
        }
        default -> stream.passOver();
      }
    }
    stream.next();
    return degree;
  }

  private HarmonyAlter alter() throws XMLStreamException {
    HarmonyAlter alter = new HarmonyAlter();
    alter.setValue(stream.decimal());
    return alter;
  }

  static Offset offset(ScoreStream stream) throws XMLStreamException {
    Offset offset = new Offset();
    offset.setValue(stream.decimal());
    return offset;
  }
}
