package phrasecensus.readers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class LimitTest {
  @ParameterizedTest
  @EnumSource(Limit.class)
  void everyLimitIsSetByItsKey(Limit limit) {
    assertThat(Limit.parse(Map.of(limit.key(), "7"))).isEqualTo(Map.of(limit, 7L));
  }

  @Test
  void anUnknownKeyIsAnsweredWithTheKnownOnes() {
    assertThatThrownBy(() -> Limit.parse(Map.of("size", "7")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "Invalid limit 'size': the limits are file-size, decompressed-size,"
                + " decompression-ratio, nesting-depth, element-count, unfolded-bars,"
                + " time-parts, reading-time");
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "-1", "ten", "1.5", "", "9223372036854775808"})
  void aValueMustBeAWholeNumberAboveZero(String value) {
    assertThatThrownBy(() -> Limit.parse(Map.of("file-size", value)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "Invalid limit file-size: '" + value + "' is no whole number of bytes above zero");
  }

  @Test
  void limitOfExactTimeCanOnlyBeLowered() {
    assertThatThrownBy(() -> Limit.parse(Map.of("time-parts", "1000000000000001")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "Invalid limit time-parts: '1000000000000001' is no whole number of parts above zero"
                + " and up to 1000000000000000");
  }

  @Test
  void onlyChangedLimitsAreTold() {
    ReadSettings settings =
        ReadSettings.defaults()
            .withLimits(
                Map.of(Limit.NESTING_DEPTH, 12L, Limit.FILE_SIZE, Limit.FILE_SIZE.defaultValue()));

    assertThat(settings.changedLimits()).isEqualTo(Map.of(Limit.NESTING_DEPTH, 12L));
  }

  @Test
  void aFileBeyondAGivenLimitIsRefusedByItsName() {
    byte[] score = "<score-partwise/>".getBytes(StandardCharsets.UTF_8);

    ReadResult result =
        SoloReader.read(
            score, "a.xml", ReadSettings.defaults().withLimits(Map.of(Limit.FILE_SIZE, 10L)));

    assertThat(result.reason()).contains("beyond the limit file-size of 10 bytes");
  }
}
