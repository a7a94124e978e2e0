from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("greens", "0003_weather_upload"),
    ]

    operations = [
        migrations.AddField(
            model_name="advice",
            name="agrees_to_shorter_gate",
            field=models.BooleanField(blank=True, null=True),
        ),
    ]
