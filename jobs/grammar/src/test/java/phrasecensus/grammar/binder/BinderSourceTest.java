package phrasecensus.grammar.binder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static phrasecensus.grammar.ElementRule.group;
import static phrasecensus.grammar.ElementRule.groups;
import static phrasecensus.grammar.ElementRule.value;
import static phrasecensus.grammar.ElementRule.values;

import jakarta.xml.bind.JAXBElement;
import java.io.StringWriter;
import java.lang.reflect.Constructor;
import java.lang.reflect.Method;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.grammar.ElementRule;
import phrasecensus.grammar.ValueRule;

/** Writes a binder for {@link Garden}, compiles it, and looks at what it makes of a document. */
class BinderSourceTest {
  private static final ElementRule GARDEN =
      groups(
              "garden",
              value("owner", ValueRule.TEXT, ""),
              value("plot-count", ValueRule.whole(0, 99), ""),
              values("tree", ValueRule.TEXT, "").attribute("height", ValueRule.whole(0, 99), ""),
              values("depth", ValueRule.decimal(0, 99), ""),
              values("sign", ValueRule.TEXT, ""))
          .attribute("soil", ValueRule.words("wet clay", "sand"), "")
          .attribute("label", ValueRule.TEXT, "");

  @TempDir private static Path classes;
  private static URLClassLoader loader;
  private static Class<?> binder;

  @BeforeAll
  static void compile() throws Exception {
    String source = source(GARDEN).text();
    Path file = classes.resolve("GardenBinding.java");
    Files.writeString(file, source);
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    StringWriter said = new StringWriter();
    try (StandardJavaFileManager files = compiler.getStandardFileManager(null, null, null)) {
      boolean compiled =
          compiler
              .getTask(
                  said,
                  files,
                  null,
                  List.of(
                      "-proc:none",
                      "-d",
                      classes.toString(),
                      "-cp",
                      System.getProperty("java.class.path")),
                  null,
                  files.getJavaFileObjects(file))
              .call();
      assertThat(compiled).as(said.toString()).isTrue();
    }
    URL[] places = {classes.toUri().toURL()};
    loader = new URLClassLoader(places, BinderSourceTest.class.getClassLoader());
    binder = loader.loadClass("gardens.GardenBinding");
  }

  @AfterAll
  static void close() throws Exception {
    loader.close();
  }

  @Test
  void anElementWithoutAnnotationIsTakenByTheNameOfItsField() throws Exception {
    assertThat(garden("<garden><owner> A </owner></garden>").getOwner()).isEqualTo(" A ");
  }

  @Test
  void aNamedElementBecomesANumber() throws Exception {
    assertThat(garden("<garden><plot-count>12</plot-count></garden>").getPlots())
        .isEqualTo(BigInteger.valueOf(12));
  }

  @Test
  void elementsThatShareAListKeepTheirOrder() throws Exception {
    List<Object> found =
        garden("<garden><depth>1.5</depth><tree>oak</tree><depth>2</depth></garden>")
            .getTreeOrDepth();

    assertThat(found.get(0)).isEqualTo(new BigDecimal("1.5"));
    assertThat(((Garden.Tree) found.get(1)).getValue()).isEqualTo("oak");
    assertThat(found.get(2)).isEqualTo(new BigDecimal("2"));
  }

  @Test
  void anAttributeOfASuperclassIsTaken() throws Exception {
    Object tree = garden("<garden><tree height='7'>oak</tree></garden>").getTreeOrDepth().get(0);

    assertThat(((Garden.Tree) tree).getHeight()).isEqualTo(7);
  }

  @Test
  void aDeclaredElementIsWrappedByItsFactory() throws Exception {
    JAXBElement<String> sign = garden("<garden><sign>keep out</sign></garden>").getSigns().get(0);

    assertThat(sign.getName().getLocalPart() + ": " + sign.getValue()).isEqualTo("sign: keep out");
  }

  @Test
  void wordsOfAnEnumerationAreThoseOfItsAnnotations() throws Exception {
    assertThat(garden("<garden soil='wet clay'/>").getGround()).isEqualTo(Garden.Soil.WET_CLAY);
    assertThat(garden("<garden soil='sand'/>").getGround()).isEqualTo(Garden.Soil.sand);
  }

  @Test
  void aWordThatTheEnumerationDoesNotHaveIsNone() throws Exception {
    assertThat(garden("<garden soil='rock'/>").getGround()).isNull();
  }

  @Test
  void whatIsNotWrittenStaysUnset() throws Exception {
    assertThat(garden("<garden/>").getLabel()).isNull();
  }

  @Test
  void aCollapsedTextIsAToken() throws Exception {
    assertThat(garden("<garden label=' a  b '/>").getLabel()).isEqualTo("<a b>");
  }

  @Test
  void anElementOutsideTheTableIsPassedOver() throws Exception {
    Garden garden = garden("<garden><pond><owner>B</owner></pond><owner>A</owner></garden>");

    assertThat(garden.getOwner()).isEqualTo("A");
  }

  @Test
  void contentsAreTheListAlone() throws Exception {
    assertThat((List<?>) bound("<garden><depth>1</depth></garden>", "contents"))
        .isEqualTo(List.of(BigDecimal.ONE));
  }

  @Test
  void theSameTableGivesTheSameSource() {
    assertThat(source(GARDEN).text()).isEqualTo(source(GARDEN).text());
  }

  @Test
  void aNameThatTheClassDoesNotTakeEndsTheBuild() {
    refused(group("garden", value("pond", ValueRule.TEXT, "")), "Garden takes no element pond");
    refused(group("garden", value("unseen", ValueRule.TEXT, "")), "Garden takes no element unseen");
    refused(
        group("garden").attribute("owner", ValueRule.TEXT, ""), "Garden takes no attribute owner");
  }

  @Test
  void aRuleWiderThanTheTypeEndsTheBuild() {
    refused(
        group("garden", value("plot-count", ValueRule.decimal(0, 9), "")),
        "element plot-count: BigInteger cannot hold what is DECIMAL");
    refused(
        group("garden").attribute("soil", ValueRule.words("sand", "rock"), ""),
        "Soil has no 'rock', as attribute soil of garden");
  }

  @Test
  void aValueThatTheTableForgetsEndsTheBuild() {
    refused(
        group("garden", group("owner")), "element owner has a value, but the table gives it none");
    refused(
        group("garden", groups("owner", value("name", ValueRule.TEXT, ""))),
        "element owner has a value, but the table gives it none");
  }

  @Test
  void anAdapterThatIsNotKnownEndsTheBuild() {
    assertThatThrownBy(() -> Property.of(Garden.Motto.class, Garden.Factory.class))
        .isInstanceOf(BinderException.class)
        .hasMessageContaining("NormalizedStringAdapter");
  }

  private static void refused(ElementRule rule, String message) {
    assertThatThrownBy(() -> source(rule)).isInstanceOf(BinderException.class).hasMessage(message);
  }

  private static BinderSource source(ElementRule garden) {
    BinderSource source =
        new BinderSource(
            "gardens", "GardenBinding", PlainStream.class.getCanonicalName(), Garden.Factory.class);
    source.element(Garden.class, garden);
    return garden.child("depth") == null
        ? source
        : source.contents(
            "contents",
            Garden.class,
            group("garden", values("depth", ValueRule.decimal(0, 99), "")));
  }

  private static Garden garden(String document) throws Exception {
    return (Garden) bound(document, "garden");
  }

  private static Object bound(String document, String method) throws Exception {
    Constructor<?> made = binder.getDeclaredConstructor(PlainStream.class);
    Method reading = binder.getDeclaredMethod(method);
    made.setAccessible(true);
    reading.setAccessible(true);
    PlainStream stream = new PlainStream(document);
    Object object = reading.invoke(made.newInstance(stream));
    assertThat(stream.isAtEndOfDocument()).isTrue();
    return object;
  }
}
