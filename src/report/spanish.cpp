// Source: SpanishWords (recalled): the team's own translation, not read by a native tradesman.
#include "spanish.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "aftercut/core/require.hpp"

namespace aftercut::report::sheets {
namespace {

using Pair = std::pair<const char*, const char*>;

constexpr Pair method_words[] = {
    {"bale", "empacar"},
    {"bale_disk", "empacar y pasar la rastra al rastrojo"},
    {"bale_flood", "empacar y luego inundar"},
    {"burn", "quema"},
    {"burn_spring", "quema en primavera"},
    {"chop_disk", "picar y pasar la rastra"},
    {"chop_disk_flood", "picar, rastra y luego inundar"},
    {"roll_flood", "inundar y pasar el rodillo"},
    {"flood", "sólo inundar"},
    {"roll_rain", "guardar la lluvia y pasar el rodillo"},
    {"leave", "dejar en pie"},
    {"bale_low", "segar el rastrojo y empacar"},
};

constexpr Pair operation_words[] = {
    {"scatter", "esparcir la hilera"},
    {"rake", "rastrillar"},
    {"bale", "empacar"},
    {"mow", "segar el rastrojo"},
    {"haul", "acarrear las pacas"},
    {"burn", "quema"},
    {"chop", "picar la paja"},
    {"disk", "pasar la rastra"},
    {"boards_in", "poner las tablas"},
    {"fill", "meter agua"},
    {"cage_roll", "pasar el rodillo de jaula"},
    {"boards_out", "quitar las tablas"},
    {"rut_disk", "tapar las rodadas con la rastra"},
    {"rut_plane", "emparejar las rodadas"},
    {"chisel", "pasar el cincel"},
    {"disk_spring", "pasar la rastra"},
    {"plane", "emparejar"},
    {"groove_roll", "pasar el rodillo acanalado"},
};

constexpr Pair machine_words[] = {
    {"rake", "rastrillo"},
    {"baler", "empacadora"},
    {"mower", "segadora"},
    {"bale_wagon", "carro de pacas"},
    {"torch", "antorcha"},
    {"chopper", "picadora"},
    {"disk", "rastra"},
    {"cage_roller", "rodillo de jaula"},
    {"plane", "emparejadora"},
    {"chisel", "cincel"},
    {"grooved_roller", "rodillo acanalado"},
};

// In the order of scenario/cautions.cpp within each subject; a test holds the two together.
constexpr Pair caution_words[] = {
    {"burning",
     "La autoridad nombrada decide, ese mismo día. Pida el permiso y el aviso del día, avise a los vecinos y "
     "a "
     "los bomberos, y tenga gente, agua y un cortafuegos limpio hasta que el campo esté apagado."},
    {"burning",
     "El aire seco y con viento pasa el fuego por encima del cortafuegos; la paja húmeda echa más humo. Con "
     "cualquiera de los dos, déjelo para otro día."},
    {"burning",
     "Por lo menos dos adultos que no hagan otra cosa hasta que esté apagado, y alguien que avise al tráfico "
     "donde el humo cruce un camino."},
    {"burning",
     "Ropa larga y entera de algodón o lana, botas y guantes de cuero, ojos cubiertos; nada de nailon ni "
     "poliéster cerca del fuego."},
    {"smoke",
     "Mantenga fuera del humo a quien tenga malos los pulmones y a los que trabajan a sotavento; hace daño "
     "antes de verse espeso."},
    {"lines",
     "Hay una línea eléctrica a menos de 100 m: ni pila ni fuego debajo, a 10 m con pacas y cargadores, y "
     "pregunte al dueño de la línea antes de una quema."},
    {"stacks",
     "Las pacas grandes con más de 14 % de humedad se calientan; mida las pilas nuevas por lo menos seis "
     "semanas sin caminar encima, y llame a los bomberos desde 71 °C (160 °F)."},
    {"stacks",
     "Deje 10 m entre pilas y hasta edificios y líneas; las aseguradoras piden a menudo 30 m. Ninguna pila "
     "en "
     "línea con el viento hacia la siguiente."},
    {"bales", "Nadie cerca de pacas que caen, ningún niño cerca de las pilas; cruce las capas al apilar."},
    {"machine fires",
     "Sople el tamo de la empacadora cada 50 a 75 pacas y al fin del día, toque si hay baleros calientes, "
     "deje "
     "enfriar antes de parar sobre paja o bajo techo, y lleve un extintor. Pida ayuda antes de pelear un "
     "fuego."},
    {"banks",
     "Las ruedas lejos del borde de zanjas, canales y bordos, por lo menos tanto como tiene de hondo; más en "
     "suelo mojado o arenoso."},
    {"overturns",
     "La mayoría de los tractores se vuelcan de lado, en bordos y zanjas: arco protector arriba, cinturón "
     "puesto."},
    {"flooded ground",
     "Nadie solo en cuadros hondos, bombas y compuertas; ninguna máquina sobre un bordo empapado; apague y "
     "ponga "
     "candado antes de destapar una bomba."},
    {"flooded ground",
     "Un tractor que cae a un canal ahoga a su operador. El agua fría corta la respiración."},
    {"mud",
     "Un tractor atascado se saca despacio, con cadena baja a otra máquina y nadie cerca; ningún tronco en "
     "las "
     "ruedas."},
    {"dust",
     "Picar y labrar en seco levanta polvo: cabina cerrada, filtros limpios, los demás a barlovento."},
    {"shafts",
     "Las guardas puestas; motor apagado antes de destapar la picadora, la empacadora o la flecha de la "
     "bomba."},
    {"storms",
     "Nada de trabajo en el campo con tormenta eléctrica; no se refugie bajo árboles solos ni postes."},
    {"roads",
     "Máquinas anchas en camino público: plegadas, con luces y señales como piden las reglas del lugar."},
};

constexpr Pair sheet_words[] = {
    {"Work list", "Lista de trabajo"},
    {"Today", "Hoy"},
    {"This week", "Esta semana"},
    {"Then, in this order", "Después, en este orden"},
    {"Today and this week, in this order", "Hoy y esta semana, en este orden"},
    {"Not given to anyone yet", "Todavía sin operador"},
    {"No work is planned for these days.", "No hay trabajo planeado para estos días."},
    {"Begin at the top. Leave a job when the ground, the straw or the sky is against it, and take the next.",
     "Empiece por arriba. Deje un trabajo cuando el suelo, la paja o el cielo no ayuden, y tome el "
     "siguiente."},
    {"No forecast covers these days, so they have an order and weeks but no hours.",
     "Ningún pronóstico cubre estos días: hay orden y semanas, pero no horas."},
    {"The forecast ends on", "El pronóstico termina el"},
    {"later work has an order and weeks but no hours.", "lo que sigue tiene orden y semanas, pero no horas."},
    {"Plan of", "Plan del"},
    {"Day", "Día"},
    {"Time", "Hora"},
    {"Field", "Campo"},
    {"Job", "Trabajo"},
    {"With", "Con"},
    {"When", "Cuándo"},
    {"Area", "Área"},
    {"Done", "Hecho"},
    {"by hand", "a mano"},
    {"Take care", "Cuidado"},
    {"pass", "pasada"},
    {"only if the method falls back", "sólo si se cambia al plan de respaldo"},
    {"stand by for the call", "esperar el aviso"},
    {"ask", "pregunte a"},
    {"before each burn; it decides on the day", "antes de cada quema; decide ese mismo día"},
    {"Local authority, fire service and licensed practice come before anything on this sheet.",
     "La autoridad local, los bomberos y la práctica con licencia van antes que todo lo de esta hoja."},
    {"Combine card", "Tarjeta de la trilladora"},
    {"Cut about", "Corte, hacia"},
    {"Straw", "Paja"},
    {"Chopper", "Picador"},
    {"Cut at", "Altura de corte"},
    {"For", "Para"},
    {"Ruts", "Rodadas"},
    {"Noted", "Notas"},
    {"on", "puesto"},
    {"off", "quitado"},
    {"in a windrow", "en hilera"},
    {"spread", "esparcida"},
    {"chopped and spread", "picada y esparcida"},
    {"none expected", "no se esperan"},
    {"Every field is cut already.", "Todos los campos ya están cortados."},
    {"Wet ground on the day of the cut leaves ruts: then the straw is neither baled nor burned there, and "
     "spring "
     "asks for more passes.",
     "El suelo mojado el día del corte deja rodadas: entonces allí no se empaca ni se hace quema, y la "
     "primavera "
     "pide más pasadas."},
    {"every year", "todos los años"},
    {"no year", "ningún año"},
    {"under 1 in 10", "menos de 1 en 10"},
    {"year in 10", "año de cada 10"},
    {"years in 10", "años de cada 10"},
    {"Source", "Fuente"},
};

std::optional<std::string> found(const Pair* begin, const Pair* end, const std::string& key) {
  const auto* at = std::find_if(begin, end, [&](const Pair& p) { return key == p.first; });
  return at == end ? std::nullopt : std::optional<std::string>{at->second};
}

}  // namespace

std::optional<std::string> spanish_method(const std::string& id) {
  return found(std::begin(method_words), std::end(method_words), id);
}

std::optional<std::string> spanish_operation(const std::string& id) {
  return found(std::begin(operation_words), std::end(operation_words), id);
}

std::optional<std::string> spanish_machine_kind(const std::string& kind) {
  return found(std::begin(machine_words), std::end(machine_words), kind);
}

std::optional<std::string> spanish_caution(const std::string& about, std::size_t nth) {
  for (const Pair& p : caution_words)
    if (about == p.first && nth-- == 0) return p.second;
  return std::nullopt;
}

std::vector<std::pair<std::string, std::size_t>> spanish_cautions() {
  std::vector<std::pair<std::string, std::size_t>> out;
  for (const Pair& p : caution_words) {
    if (out.empty() || out.back().first != p.first) out.emplace_back(p.first, 0);
    ++out.back().second;
  }
  return out;
}

std::string spanish_source(const std::string& source) {
  if (source == "common practice") return "práctica común";
  if (source == "from memory") return "de memoria";
  return source;
}

std::string told(const char* english, Language language) {
  if (language == Language::english) return english;
  const auto text = found(std::begin(sheet_words), std::end(sheet_words), english);
  require(text.has_value(), "every text of a sheet has its Spanish");
  return *text;
}

}  // namespace aftercut::report::sheets
