"""Closed lists of words that stand in the database."""

from django.db.models import TextChoices


class Role(TextChoices):
    HEAD = "head", "Head greenkeeper"
    STAFF = "staff", "Greenstaff"
    COMMITTEE = "committee", "Committee"
    ADVISER = "adviser", "Adviser"


class Units(TextChoices):
    METRIC = "metric", "Metric"
    US = "us", "US customary"


class LinkPurpose(TextChoices):
    INVITATION = "invitation", "Invitation"
    RESET = "reset", "New password"


class AreaMethod(TextChoices):
    TYPED = "typed", "Known area, typed in"
    RADII = "radii", "Radii from a centre at equal angles"
    OFFSETS = "offsets", "Offsets along a base line"


class LayerKind(TextChoices):
    EXCAVATION = "excavation", "Excavation below finished level"
    GRAVEL = "gravel", "Gravel blanket"
    BLINDING = "blinding", "Blinding layer"
    ROOTZONE = "rootzone", "Rootzone"


class DrainKind(TextChoices):
    MAIN = "main", "Main"
    LATERAL = "lateral", "Lateral"


class MaterialKind(TextChoices):
    GRAVEL = "gravel", "Gravel"
    BLINDING = "blinding", "Blinding grit"
    ROOTZONE = "rootzone", "Rootzone"
    SAND = "sand", "Topdressing sand"
    TURF_SOIL = "turf_soil", "Soil of the turf"


class ProductKind(TextChoices):
    GRANULAR = "granular", "Granular fertiliser"
    LIQUID = "liquid", "Liquid or soluble feed"
    SAND = "sand", "Topdressing"
    SEED = "seed", "Seed"
    WETTING_AGENT = "wetting_agent", "Wetting agent"
    SPRAY = "spray", "Plant protection product"
    OTHER = "other", "Other"


class LabelBasis(TextChoices):
    BY_WEIGHT = "w/w", "% by weight (w/w)"
    BY_VOLUME = "w/v", "% weight by volume (w/v)"


class AmountUnit(TextChoices):
    GRAMS = "g", "kg"
    MILLILITRES = "ml", "litres"


class StockKind(TextChoices):
    DELIVERED = "delivered", "Delivered"
    COUNTED = "counted", "Counted in the shed"


class BookKind(TextChoices):
    DIARY = "diary", "Diary of work"
    PRODUCTS = "products", "List of products"
    READINGS = "readings", "Readings"


class FileKind(TextChoices):
    PHOTOGRAPH = "photograph", "Photograph"
    DOCUMENT = "document", "Document"
    VOICE = "voice", "Voice note"


class DayStateKind(TextChoices):
    OPEN = "open", "Open"
    FROSTED = "frosted", "Frosted"
    THAWING = "thawing", "Thawing"
    WATERLOGGED = "waterlogged", "Waterlogged"
    TEMPORARY = "temporary", "Temporary green in play"
    RESTED = "rested", "Rested"


class JobState(TextChoices):
    QUEUED = "queued", "Waiting for its turn"
    RUNNING = "running", "At work"
    DONE = "done", "Done"
    FAILED = "failed", "Not done"
    GIVEN_UP = "given up", "Given up"


class Sending(TextChoices):
    """How far an e-mail has come."""

    WAITING = "waiting", "Waiting"
    SENDING = "sending", "On its way"
    SENT = "sent", "Sent"
    GIVEN_UP = "given up", "Given up"
    NOT_NEEDED = "not needed", "No longer needed"


class NoticeKind(TextChoices):
    """What a notice is about, the weightiest first."""

    AGAINST = "against", "Opened against the verdict"
    OPENING = "opening", "Planned opening too early"
    PLAY = "play", "A green in play falls back"
    WEATHER = "weather", "Frost, heat or long wet"
    CEILING = "ceiling", "Close to a season's limit"
    RECHECK = "recheck", "Looking again after opening"
    STEPS = "steps", "Work due or overdue"
    READINGS = "readings", "Readings due or too old"
    CRITERION = "criterion", "A bar newly met or lost"
    STOCK = "stock", "Stock too low for the next steps"
    DEFECT = "defect", "Contractor's defect due"
    NOTE = "note", "The week in plain words"


class Pace(TextChoices):
    """How soon somebody is mailed what they are told."""

    AT_ONCE = "at_once", "At once"
    DAILY = "daily", "Once a day"
    WEEKLY = "weekly", "Once a week"
    SITE = "site", "On the site only"
